#pragma once

#include <QStackedWidget>
#include <QWidget>

#include "app/frame/session.h"
#include "app/print/report.h"

namespace secondpull::app {

/// The sub-pages of the Books, in their order.
enum class BooksView { machines, months, year, money_out, sales_tax, tied_up, closing };

/// One sub-page of the Books. The frame page shows one at a time, gives it the year where it is about one,
/// and prints what it reports.
class BooksPanel : public QWidget {
  Q_OBJECT
 public:
  BooksPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {}

  virtual void refresh() = 0;  ///< the records, or the year, may be others
  virtual void start() = 0;    ///< puts the focus where a person starts
  /// What goes to paper, PDF and CSV; the frame adds the shop's name and the note on tax advice.
  virtual Report report() const = 0;
  virtual bool isAboutAYear() const { return true; }
  virtual void openMachine(MachineId) {}

  int year() const { return year_; }
  void setYear(int year) { year_ = year; }  ///< refresh() shows it

 signals:
  void said(const QString& sentence, bool problem);
  void wantsMachine(MachineId machine);
  void wantsPage(const QString& word);  ///< another screen
  void wantsYear(int year);
  void wantsTrips();                                ///< the mileage log of the year
  void wantsView(secondpull::app::BooksView view);  ///< another sub-page, of the same year

 protected:
  Session& session() const { return session_; }
  /// Fills the panel with its content, or with what an empty one says and the step it offers, on another
  /// screen; page 1 of the stack is the content.
  QStackedWidget* layOut(QWidget* content, const QString& when_empty, const QString& step,
                         const QString& screen);

 private:
  Session& session_;
  int year_ = 0;
};

}  // namespace secondpull::app
