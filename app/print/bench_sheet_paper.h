#pragma once

#include "app/print/sheet.h"
#include "core/paper/bench_sheet.h"

namespace secondpull::app {

/// A machine's card for the garage wall: legible from a step away, with squares to tick and lines to write
/// on down to the end of the page.
Sheet benchSheet(const paper::BenchSheet& sheet);

std::optional<Problem> writeBenchSheetPdf(const paper::BenchSheet& sheet, const QString& path);

}  // namespace secondpull::app
