#pragma once

#include <vector>

#include "app/print/sheet.h"
#include "core/paper/tag.h"

namespace secondpull::app {

/// Tags to cut out and tie on, each with a hole to punch, its number, what it is, and a QR code that a hand
/// scanner reads into the What-now line; two beside each other on A4 or Letter, as many pages as it takes.
Sheet tagSheet(const std::vector<paper::Tag>& tags, const QString& file_name);

/// One tag alone on a label of its size (90 x 50 mm).
Sheet tagLabel(const paper::Tag& tag);

std::optional<Problem> writeTagsPdf(const std::vector<paper::Tag>& tags, const QString& path);
std::optional<Problem> writeTagLabelPdf(const paper::Tag& tag, const QString& path);

}  // namespace secondpull::app
