#pragma once

#include <QImage>

#include "app/print/sheet.h"
#include "core/paper/listing_text.h"

namespace secondpull::app {

/// What stands on the sheet that hangs on a board or in a window.
struct ListingPaper {
  paper::ListingWords words;
  QString price;   ///< "$145", large; may be empty
  QString seller;  ///< the shop's name
  QString number;  ///< "#14": what to ask for; on the sheet and in the file's name
  QImage photo;    ///< may be null
};
Sheet listingSheet(const ListingPaper& listing);

std::optional<Problem> writeListingPdf(const ListingPaper& listing, const QString& path);

}  // namespace secondpull::app
