#pragma once
// The scenes, one for each way of looking. What a sheet shows is drawn from inputs alone.

#include "figure/sketch.hpp"

namespace footroom::figure {

void draw_roof(Sketch&);
void draw_roof_area(Sketch&);
void draw_rafters(Sketch&);
void draw_roof_slide(Sketch&);

void draw_edge_fall(Sketch&);
void draw_largest_slack(Sketch&);

void draw_free_fall_rule(Sketch&);
void draw_free_fall_motion(Sketch&);
void draw_absorber(Sketch&);
void draw_arrest_force(Sketch&);
void draw_elastic_line(Sketch&);
void draw_line_then_absorber(Sketch&);

void draw_eave_swing(Sketch&);
void draw_roof_swing(Sketch&);
void draw_rake_swing(Sketch&);
void draw_overhead_swing(Sketch&);
void draw_anchor_reach(Sketch&);

void draw_clearance(Sketch&);
void draw_clearance_check(Sketch&);
void draw_change_datum(Sketch&);

void draw_ladder(Sketch&);
void draw_ladder_for_landing(Sketch&);
void draw_anchor_strength(Sketch&);

void draw_rope_passes(Sketch&);

}  // namespace footroom::figure
