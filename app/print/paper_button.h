#pragma once

#include <functional>
#include <optional>
#include <vector>

#include <QPushButton>

#include "app/frame/page.h"
#include "app/print/sheet.h"

namespace secondpull::app {

/// A paper that a page can make just now.
struct PaperChoice {
  QString name;                                ///< in object names: "tag"
  QString print;                               ///< what printing it is called: "print the tag"
  QString pdf;                                 ///< "tag as PDF"
  std::function<std::optional<Sheet>()> make;  ///< nothing: there is nothing to make it of
};

/// A quiet button with a menu: each paper to print or to write as PDF. Object names of the actions: the
/// paper's name with "Print" and "Pdf".
class PaperButton : public QPushButton {
  Q_OBJECT
 public:
  /// `say` tells what came of it, and whether it went wrong.
  using Say = std::function<void(const QString& sentence, bool problem)>;
  PaperButton(std::vector<PaperChoice> papers, Say say, QWidget* parent = nullptr);
  /// The same as deeds for the What-now line, and one that opens the menu with its key.
  std::vector<Page::Deed> deeds();

 private:
  std::vector<Page::Deed> each();
  std::vector<PaperChoice> papers_;
  Say say_;
};

}  // namespace secondpull::app
