#pragma once

#include "app/print/paper_button.h"
#include "core/paper/bench_sheet.h"

namespace secondpull::app {

class Session;

/// A machine's bench sheet: with the next steps where it waits for one and its plan is there, else to write
/// on.
paper::BenchSheet benchSheetOf(Session& session, MachineId machine);

/// Tag, label and bench sheet of the machine that a page is about.
std::vector<PaperChoice> machinePapers(Session& session, std::function<std::optional<MachineId>()> machine);

/// The tags of all machines that are here, on as many pages as they take.
PaperChoice tagsOfAllHere(Session& session);

}  // namespace secondpull::app
