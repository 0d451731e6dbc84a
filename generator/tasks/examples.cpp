#include "tasks/examples.hpp"

#include <algorithm>
#include <iterator>
#include <stdexcept>

namespace footroom::tasks {
namespace {

struct Example {
  std::string_view calculation;
  std::string_view us;  ///< NAME=VALUE, separated by semicolons
  std::string_view si;
};

// Round values of an ordinary house and ordinary gear, invented; what is left out falls back to
// the catalogue or to the rule set.
constexpr Example examples[] = {
    {"roof", "pitch=6:12;run=14 ft", "pitch=30 deg;run=4.5 m"},
    {"roof-area", "pitch=6:12;eave-length=40 ft;run=14 ft",
     "pitch=30 deg;eave-length=12 m;run=4.5 m"},
    {"rafters", "ridge-length=40 ft;spacing=16 in;first-rafter=0.75 in;position=100 in",
     "ridge-length=12 m;spacing=40 cm;first-rafter=2 cm;position=250 cm"},
    {"roof-slide", "pitch=8:12;friction=0.4;distance=10 ft",
     "pitch=35 deg;friction=0.4;distance=3 m"},
    {"edge-fall", "slope-length=16 ft;pitch=6:12;d-ring-height=5 ft;slack=2 ft",
     "slope-length=5 m;pitch=27 deg;d-ring-height=1.5 m;slack=0.6 m"},
    {"largest-slack", "slope-length=16 ft;pitch=6:12;d-ring-height=5 ft",
     "slope-length=5 m;pitch=27 deg;d-ring-height=1.5 m"},
    {"eave-swing", "slope-length=16 ft;offset=6 ft", "slope-length=5 m;offset=2 m"},
    {"roof-swing", "down=12 ft;across=5 ft;pitch=6:12", "down=4 m;across=1.5 m;pitch=27 deg"},
    {"rake-swing",
     "pitch=6:12;slope-length=20 ft;anchor-from-rake=6 ft;down-slope=10 ft;line=13 ft",
     "pitch=27 deg;slope-length=6 m;anchor-from-rake=2 m;down-slope=3 m;line=4 m"},
    {"overhead-swing", "anchor-height=10 ft;offset=4 ft", "anchor-height=3 m;offset=1.2 m"},
    {"free-fall-rule", "lanyard-length=6 ft;anchor-above-d-ring=2 ft",
     "lanyard-length=1.8 m;anchor-above-d-ring=0.6 m"},
    {"free-fall-motion", "drop=6 ft", "drop=1.8 m"},
    {"absorber", "weight=220 lbf;free-fall=6 ft;force=900 lbf;maximum-elongation=3.5 ft",
     "weight=1000 N;free-fall=1.8 m;force=4 kN;maximum-elongation=1.07 m"},
    {"arrest-force", "weight=220 lbf;free-fall=4 ft;stopping-distance=2 ft",
     "weight=1000 N;free-fall=1.2 m;stopping-distance=0.6 m"},
    {"elastic-line",
     "weight=220 lbf;free-fall=2 ft;line-length=20 ft;test-force=1800 lbf;test-elongation=10 "
     "percent",
     "weight=1000 N;free-fall=0.6 m;line-length=6 m;test-force=8 kN;test-elongation=10 percent"},
    {"line-then-absorber",
     "weight=220 lbf;free-fall=6 ft;stiffness=900 lbf/ft;force=900 lbf;maximum-elongation=3.5 ft",
     "weight=1000 N;free-fall=1.8 m;stiffness=13 kN/m;force=4 kN;maximum-elongation=1.07 m"},
    {"clearance",
     "datum=below-d-ring;free-fall=4 ft;line-stretch=1 ft;harness-stretch=1 ft;body-below=5 ft;"
     "safety-margin=2 ft",
     "datum=below-d-ring;free-fall=1.2 m;line-stretch=0.3 m;harness-stretch=0.3 m;body-below=1.5 m;"
     "safety-margin=0.6 m"},
    {"clearance-check", "needed=16.5 ft;available=18 ft", "needed=5 m;available=5.5 m"},
    {"change-datum",
     "clearance=16.5 ft;from=below-d-ring;to=below-standing-surface;d-ring-height=5 ft;"
     "anchor-above-d-ring=2 ft",
     "clearance=5 m;from=below-d-ring;to=below-standing-surface;d-ring-height=1.5 m;"
     "anchor-above-d-ring=0.6 m"},
    {"ladder", "working-length=16 ft", "working-length=5 m"},
    {"ladder-for-landing", "landing-height=12 ft", "landing-height=3.6 m"},
    {"anchor-strength", "persons=2", "persons=2"},
    {"gear-check",
     "body-support=full-body-harness;attachment=dorsal;user-mass=220 lb;marked-capacity=310 lb;"
     "connector-lock=locks-by-itself;opening-actions=2;connector-strength=5000 lbf;"
     "connector-opening=0.75 in;eye-thickness=0.5 in;lanyard-strength=5400 lbf;"
     "rope-diameter=0.625 in;grab-smallest=0.5 in;grab-largest=0.625 in;"
     "grab-direction=upside-down;persons-on-line=1;persons-on-anchor=1;anchor-strength=5000 lbf;"
     "findings=cut",
     "body-support=full-body-harness;attachment=dorsal;user-mass=100 kg;marked-capacity=140 kg;"
     "connector-lock=locks-by-itself;opening-actions=2;connector-strength=22.2 kN;"
     "connector-opening=19 mm;eye-thickness=12 mm;lanyard-strength=24 kN;rope-diameter=16 mm;"
     "grab-smallest=12 mm;grab-largest=16 mm;grab-direction=upside-down;persons-on-line=1;"
     "persons-on-anchor=1;anchor-strength=22.2 kN;findings=cut"},
    {"rope-passes", "workers=3;passes=1-over, 2-under, 1-over",
     "workers=3;passes=1-over, 2-under, 1-over"},
    {"nail-penetration",
     "nail-length=3.5 in;nail-diameter=0.162 in;bracket-thickness=0.125 in;"
     "sheathing-thickness=0.5 in",
     "nail-length=90 mm;nail-diameter=4.1 mm;bracket-thickness=3 mm;sheathing-thickness=12 mm"},
    {"nail-withdrawal", "specific-gravity=0.42;nail-diameter=0.162 in;penetration=2.5 in;nails=6",
     "specific-gravity=0.42;nail-diameter=4.1 mm;penetration=65 mm;nails=6"},
    {"nail-lateral",
     "specific-gravity=0.42;nail-diameter=0.162 in;penetration=2.5 in;side-thickness=0.125 in;"
     "nails=6",
     "specific-gravity=0.42;nail-diameter=4.1 mm;penetration=65 mm;side-thickness=3 mm;nails=6"},
    {"nail-combined", "withdrawal-capacity=500 lbf;lateral-capacity=700 lbf;load-angle=30 deg",
     "withdrawal-capacity=2200 N;lateral-capacity=3100 N;load-angle=30 deg"},
    {"nails-needed", "load=900 lbf;capacity-per-nail=110 lbf",
     "load=4000 N;capacity-per-nail=490 N"},
    {"missed-rafter",
     "sheathing-thickness=0.5 in;specific-gravity=0.42;nail-diameter=0.162 in;penetration=2.5 in",
     "sheathing-thickness=12 mm;specific-gravity=0.42;nail-diameter=4.1 mm;penetration=65 mm"},
    {"holes-to-patch", "anchors=4;nails-per-anchor=6;missed-nails=3",
     "anchors=4;nails-per-anchor=6;missed-nails=3"},
    {"ridge-layout",
     "ridge-length=40 ft;spacing=24 in;first-rafter=0.75 in;workers=3;end-distance=4 ft",
     "ridge-length=12 m;spacing=60 cm;first-rafter=2 cm;workers=3;end-distance=1.2 m"},
    {"anchor-reach", "slope-length=16 ft;eave-length=40 ft;line-length=18 ft",
     "slope-length=5 m;eave-length=12 m;line-length=5.6 m"},
    {"arrest-in-time",
     "mass=220 lb;free-fall=6 ft;stiffness=2700 lbf/ft;absorber-force=900 lbf;"
     "maximum-elongation=3.5 ft;damping-ratio=0.05",
     "mass=100 kg;free-fall=1.8 m;stiffness=40 kN/m;absorber-force=4 kN;maximum-elongation=1.07 m;"
     "damping-ratio=0.05"},
    {"horizontal-line", "load=900 lbf;sag-angle=10 deg", "load=4 kN;sag-angle=10 deg"},
    {"sag-angle", "span=30 ft;sag=2 ft", "span=9 m;sag=0.6 m"},
    {"capstan", "force=900 lbf;friction=0.3;edge-angle=90 deg",
     "force=4000 N;friction=0.3;edge-angle=90 deg"},
    {"knot-strength", "rope-strength=6000 lbf;knot-factor=60 percent",
     "rope-strength=27 kN;knot-factor=60 percent"},
    {"travel-restraint-length", "to-eave=16 ft;to-rake=12 ft;margin=2 ft;connectors=2 ft",
     "to-eave=5 m;to-rake=4 m;margin=0.6 m;connectors=0.6 m"},
    {"user-mass", "body=220 lb;tools=30 lb", "body=100 kg;tools=14 kg"},
    {"hip-length", "pitch=6:12;run=14 ft", "pitch=30 deg;run=4.5 m"},
};

}  // namespace

std::vector<std::string> example_words(std::string_view calculation, notation::System system) {
  const auto found =
      std::find_if(std::begin(examples), std::end(examples),
                   [&](const Example& example) { return example.calculation == calculation; });
  if (found == std::end(examples))
    throw std::logic_error("the manual has no example of " + std::string(calculation));
  const std::string_view all = system == notation::System::us ? found->us : found->si;
  std::vector<std::string> words(1);
  for (const char c : all) {
    if (c == ';')
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

}  // namespace footroom::tasks
