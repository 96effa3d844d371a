#pragma once

#include "app/frame/page.h"

namespace secondpull::app {

/// The Bench: one machine, one card, read downwards: what it is and where it stands, its faults, the next
/// step or whatever else it waits for, what is done on it as typed lines, its photos; beside them what it may
/// be, the plan, the path so far and machines like it; at the foot the verdict, or what a sale would leave.
/// Without a machine it lists those that are here.
///
/// Object names: "benchPage", "benchCard", "workDay"; the rest in the headers of its panels (machine_head,
/// fault_panel, step_panel and what it shows, plan_ahead, verdict_band, numbers_panel, alike_panel,
/// finding_line, hours_line, part_line, material_line, path_view, sale_band, machine_list, facts_form,
/// app/parts/photo_strip). Keys: 1 to 9 (number pad) choose at the step, F3 price, F4 facts, F5 step, F6
/// hours, F7 part, F8 material, F9 fault, F12 the path, Ctrl+P papers, Ctrl+O another machine, Ctrl+PgUp and
/// Ctrl+PgDown the machine before and after, number pad + or Ctrl+T the clock.
Page* makeBenchPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
