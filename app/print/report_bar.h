#pragma once

#include <functional>

#include <QWidget>

#include "app/print/report.h"

namespace secondpull::app {

struct PaperSaid;

/// "Print", "PDF" and "CSV" as three quiet buttons. What they write is asked for when one is pressed. Object
/// names: reportPrint, reportPdf, reportCsv.
class ReportBar : public QWidget {
  Q_OBJECT
 public:
  explicit ReportBar(std::function<Report()> make, QWidget* parent = nullptr);
  void print();  ///< asks for the printer
  void pdf();    ///< asks for the path
  void csv();    ///< asks for the path
  void writePdfTo(const QString& path);
  void writeCsvTo(const QString& path);

 signals:
  void said(const QString& sentence, bool problem);

 private:
  void say(const PaperSaid& what);
  std::function<Report()> make_;
};

}  // namespace secondpull::app
