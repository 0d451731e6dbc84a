#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/program_run.hpp"

namespace footroom::cli {
namespace {

using testing::Ran;
using testing::run_in;
using testing::Scratch;
using Words = std::vector<std::string>;

Ran calc(Words words) {
  const Scratch scratch;
  words.insert(words.begin(), "calc");
  return run_in(scratch.path, words);
}

Words edge_fall(const Words& more = {}) {
  Words words{"edge-fall", "slope-length=16 ft", "pitch=6:12", "d-ring-height=5 ft", "slack=4 ft"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

void expect_refused(const Words& words, int code, const std::string& message) {
  const Ran ran = calc(words);
  EXPECT_EQ(ran.code, code);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, message + "\n");
}

TEST(Calc, GivesJsonForOutsideReaders) {
  const Ran ran = calc(edge_fall({"--json"}));
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto json = nlohmann::json::parse(ran.out);
  EXPECT_EQ(json["id"], "edge-fall");
  EXPECT_EQ(json["inputs"]["slack"],
            nlohmann::json({{"si", 1.2192}, {"unit", "m"}, {"text", "4 ft"}}));
  EXPECT_EQ(json["inputs"]["pitch"]["unit"], "rad");
  EXPECT_EQ(json["inputs"]["pitch"]["text"], "6:12");
  // taut line: hypot(16 cos 26.565, 5 - 16 sin 26.565) = 14.47225 ft; + 4 - 16
  EXPECT_EQ(json["outputs"]["below-edge"]["text"], "2.5 ft");
  EXPECT_NEAR(json["outputs"]["below-edge"]["si"], 2.47225 * 0.3048, 1e-5);
  EXPECT_EQ(json["outputs"]["end"]["word"], "below-edge");
  ASSERT_EQ(json["steps"].size(), 4u);
  EXPECT_EQ(json["steps"][1]["output"], "line-out");
  EXPECT_EQ(json["sources"][0]["status"], "second-hand");
  EXPECT_EQ(json["cautions"].size(), 1u);
}

TEST(Calc, NumbersInJsonHaveTwelveDigits) {
  const Ran ran = calc(edge_fall({"--json"}));
  for (std::size_t at = ran.out.find("\"si\": "); at != std::string::npos;
       at = ran.out.find("\"si\": ", at + 1)) {
    std::size_t digits = 0;
    for (std::size_t i = at + 6; ran.out[i] != ','; ++i)
      digits += ran.out[i] >= '0' && ran.out[i] <= '9';
    EXPECT_LE(digits, 13u);  // one may be the zero before the point
  }
}

TEST(Calc, PrintsAPageInEnglishAndUsUnits) {
  EXPECT_EQ(calc(edge_fall()).out, R"(Fall over the eave, straight down (edge-fall)
How far the dorsal D-ring falls before the line takes load, when the worker goes over the eave straight below the anchor.

Inputs
  slope-length   L  16 ft  slope length from anchor to eave edge
  pitch          θ  6:12   roof angle
  d-ring-height  h  5 ft   height of the D-ring over the feet
  slack          σ  4 ft   slack in the line

Steps
  The taut line runs straight from the anchor to the D-ring.
    d₀ = √((L cos θ)² + (h - L sin θ)²)
       = √((16 ft · cos 26.57°)² + (5 ft - 16 ft · sin 26.57°)²)
       = 14.47 ft
  Slack adds to the line that is out.
    l = d₀ + σ
      = 14.47 ft + 4 ft
      = 18.47 ft
  Over the eave, the slope uses up its own length; the rest hangs below the edge.
    b = l - L
      = 18.47 ft - 16 ft
      = 2.47 ft
  The D-ring started its height above the edge and ends below it.
    FF = h + b
       = 5 ft + 2.47 ft
       = 7.47 ft

Outputs
  taut-line        d₀  14.5 ft         taut line
  line-out         l   18.5 ft         line out
  below-edge       b   2.5 ft          line below the edge
  free-fall        FF  7.5 ft          free fall
  stopped-upslope  u   0.0 ft          stop, upslope of the edge
  end                  below the edge  where the fall ends

Sources
  29 CFR 1926.500(b), free fall (second hand): what counts as free fall

Cautions
  Valid on the anchor's fall line only; away from it add the eave swing.
)");
}

TEST(Calc, PrintsAPageInSpanishAndMetres) {
  EXPECT_EQ(calc({"edge-fall", "slope-length=5 m", "pitch=26.6 deg", "d-ring-height=1.5 m",
                  "slack=1.2 m", "--units", "si", "--language", "es", "--decimal-mark", "comma"})
                .out,
            R"(Caída por el alero, en línea recta (edge-fall)
Cuánto cae el anillo en D dorsal antes de que la cuerda reciba carga, cuando el trabajador pasa el alero justo debajo del anclaje.

Datos
  slope-length   L  5 m    largo de la pendiente, del anclaje al alero
  pitch          θ  26,6°  ángulo del techo
  d-ring-height  h  1,5 m  altura del anillo en D sobre los pies
  slack          σ  1,2 m  holgura de la cuerda

Pasos
  La cuerda tensa va recta del anclaje al anillo en D.
    d₀ = √((L cos θ)² + (h - L sin θ)²)
       = √((5 m · cos 26,60°)² + (1,5 m - 5 m · sin 26,60°)²)
       = 4,531 m
  La holgura se suma a la cuerda extendida.
    l = d₀ + σ
      = 4,531 m + 1,2 m
      = 5,731 m
  Pasado el alero, la pendiente ocupa su propio largo; el resto cuelga debajo del borde.
    b = l - L
      = 5,731 m - 5 m
      = 0,731 m
  El anillo en D empezó a su altura sobre el borde y termina debajo de él.
    FF = h + b
       = 1,5 m + 0,731 m
       = 2,231 m

Resultados
  taut-line        d₀  4,53 m            cuerda tensa
  line-out         l   5,73 m            cuerda extendida
  below-edge       b   0,73 m            cuerda debajo del borde
  free-fall        FF  2,23 m            caída libre
  stopped-upslope  u   0,00 m            parada, antes del borde
  end                  debajo del borde  dónde termina la caída

Fuentes
  29 CFR 1926.500(b), caída libre (de segunda mano): qué cuenta como caída libre

Precauciones
  Vale solo en la línea de máxima pendiente del anclaje; fuera de ella sume el péndulo por el alero.
)");
}

TEST(Calc, TakesValuesAsPeopleWriteThem) {
  for (const char* slack : {"slack=4 ft", "slack=4ft", "slack=48 in", "slack=4'", "slack=1.2192 m",
                            "slack=4 ft 0 in", "slack=8/2 ft"}) {
    Words words = edge_fall({"--json"});
    words[4] = slack;
    const Ran ran = calc(words);
    ASSERT_EQ(ran.code, 0) << slack << ran.err;
    EXPECT_EQ(nlohmann::json::parse(ran.out)["outputs"]["below-edge"]["text"], "2.5 ft") << slack;
  }
}

TEST(Calc, TellsValueAndDomainInTheUnitTyped) {
  Words words = edge_fall();
  words[4] = "slack=-1 ft";
  expect_refused(words, 1, "slack: is -1 ft, expected 0 ft to 98.4 ft");
  words[4] = "slack=-1 m";
  expect_refused(words, 1, "slack: is -1 m, expected 0 m to 30 m");
  words[4] = "slack=1200 in";
  expect_refused(words, 1, "slack: is 1,200 in, expected 0 in to 1,180 in");
}

TEST(Calc, TellsEverythingThatIsWrongAtOnce) {
  expect_refused({"edge-fall", "slope-lenght=16 ft", "pitch=6:12", "slack=4 fet", "slack=4 ft"}, 2,
                 "slope-lenght: is no input of edge-fall; did you mean slope-length?\n"
                 "slack: unknown unit 'fet', did you mean 'ft'?\n"
                 "slope-length: is missing; it is the slope length from anchor to eave edge\n"
                 "d-ring-height: is missing; it is the height of the D-ring over the feet");
}

TEST(Calc, RefusesWhatIsNoQuantity) {
  Words words = edge_fall();
  for (const char* text : {"4", "4 lb", "nan ft", "inf ft", "ft", "", "1e999 ft"}) {
    words[4] = std::string("slack=") + text;
    const Ran ran = calc(words);
    EXPECT_EQ(ran.code, 1) << text;
    EXPECT_EQ(ran.err.find("slack: "), 0u) << ran.err;
  }
  words[4] = "slack";
  expect_refused(words, 2, "slack: expected NAME=VALUE");
  words[4] = "slack=4 ft";
  words.push_back("slack=5 ft");
  expect_refused(words, 2, "slack: is given twice");
}

TEST(Calc, SuggestsTheNearestCalculation) {
  expect_refused({"edge-fal"}, 2, "edge-fal: is no calculation; did you mean edge-fall?");
  expect_refused({}, 2, "CALCULATION: is missing; see footroom calc --list");
}

TEST(Calc, TakesALimitOfTheRuleSetWhereItIsNotGiven) {
  const Ran ran = calc({"roof", "pitch=6:12", "run=12 ft", "--json"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto json = nlohmann::json::parse(ran.out);
  EXPECT_EQ(json["inputs"]["low-slope"]["text"], "4:12");
  EXPECT_EQ(json["sources"].back()["citation"], "29 CFR 1926.500(b)");
}

TEST(Calc, ListsTheCatalogue) {
  const auto json = nlohmann::json::parse(calc({"--list", "--json"}).out);
  EXPECT_GE(json.size(), 2u);
  const Ran page = calc({"--list"});
  for (const auto& one : json) {
    EXPECT_NE(page.out.find("  " + one["id"].get<std::string>() + " "), std::string::npos);
    const Ran inputs = calc({one["id"], "--list"});
    EXPECT_EQ(inputs.code, 0);
    for (const auto& input : one["inputs"])
      EXPECT_NE(inputs.out.find("  " + input["name"].get<std::string>() + " "), std::string::npos);
  }
}

}  // namespace
}  // namespace footroom::cli
