#pragma once

#include <filesystem>
#include <functional>
#include <memory>

#include <QFrame>

#include "app/frame/long_work.h"
#include "db/exchange/exchange.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class ImportErrors;
class Session;
class SheetPanel;

/// The shop's data on its way out and in: where it lies, its backups, and the exchange folder. Each way runs
/// off the window's thread and says how far it is; an import can be given up until it is written. One at a
/// time.
class DataPanel : public QFrame {
  Q_OBJECT
 public:
  explicit DataPanel(Session& session, QWidget* parent = nullptr);
  ~DataPanel() override;
  /// Ask where to or from, then do it.
  void chooseExport();
  void chooseImport();
  void chooseSheet();
  void chooseBackup();

  /// Writes the shop's tables into this folder, or, where other things lie in it, into a new one inside.
  void exportTo(const std::filesystem::path& folder);
  /// Adds what the folder holds to the open shop as one action, or shows every error of it.
  void importFrom(const std::filesystem::path& folder);
  /// Asks which column of this CSV sheet is what; then it is added as a folder is.
  void openSheet(const std::filesystem::path& file);
  void backUpNow();
  void backUpTo(const std::filesystem::path& file);  ///< one archive, photos included

 signals:
  void wantsSaid(const QString& sentence, bool problem);
  void spoke();  ///< it shows something that a person should see

 private:
  struct Outcome;
  void makeBusyRow();
  /// Starts the work unless other work is under way. A success is told with the outcome's sentence.
  void run(const QString& step, bool can_be_given_up, const LongWork::Task& task);
  void importSheet();
  /// Adds what `read` makes of the shop's records, from a thread of its own.
  void takeIn(std::function<db::ImportResult(const Shop& existing)> read, const QString& from);
  void finish(const QString& sentence, bool problem);

  Session& session_;
  LongWork* work_;
  std::shared_ptr<Outcome> outcome_;  // of the present or the last work
  std::filesystem::path imported_;    // the folder imported last; empty: it was a sheet
  QWidget* buttons_;
  QWidget* busy_;
  QLabel* step_;
  QPushButton* give_up_;
  QLabel* told_;
  QPushButton* again_;
  ImportErrors* errors_;
  SheetPanel* sheet_;
};

}  // namespace secondpull::app
