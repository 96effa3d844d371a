#pragma once

#include "app/print/sheet.h"
#include "core/money/money.h"
#include "core/paper/receipt.h"

namespace secondpull::app {

/// The sales receipt, upright on A4 or Letter, with a line for either name. For a page: printPaper, savePaper
/// (paper_desk.h), or a PaperButton (paper_button.h).
Sheet receiptSheet(const paper::Receipt& receipt, const Currency& currency);

std::optional<Problem> writeReceiptPdf(const paper::Receipt& receipt, const Currency& currency,
                                       const QString& path);

}  // namespace secondpull::app
