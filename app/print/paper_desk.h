#pragma once

#include <QString>

#include "app/print/sheet.h"

class QWidget;

namespace secondpull::app {

/// What is to be said once a paper was printed or written; no sentence where the person thought better of it.
struct PaperSaid {
  QString sentence;
  bool problem = false;
};

/// Asks for the printer and prints on it.
PaperSaid printPaper(const Sheet& sheet, QWidget* over);
/// Asks where to and writes it there as PDF.
PaperSaid savePaper(const Sheet& sheet, QWidget* over);
/// Writes it there as PDF.
PaperSaid savePaperTo(const Sheet& sheet, const QString& path);

/// Asks for the path of a file that begins with this name and ends so (".pdf"). Empty: the person left.
QString askForPath(const QString& title, const QString& file_name, const QString& ending, QWidget* over);

}  // namespace secondpull::app
