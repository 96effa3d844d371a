#include "app/frame/data_panel.h"

#include <vector>

#include <QDir>
#include <QFileDialog>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/import_errors.h"
#include "app/frame/session.h"
#include "app/frame/sheet_panel.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "db/exchange/exchange.h"
#include "db/exchange/take_in.h"

namespace secondpull::app {
namespace {

namespace fs = std::filesystem;

QString say(const std::string& text) {
  return QString::fromStdString(text);
}

/// Where an export goes for which this folder was chosen: into it if it is empty or holds an earlier one,
/// else into a new one inside, so that tables do not come to lie among other things.
fs::path exportFolder(const fs::path& chosen, const std::string& day) {
  std::error_code unknown;  // a folder that cannot be looked at is told of when it is written
  if (!fs::exists(chosen, unknown) || fs::is_empty(chosen, unknown) ||
      fs::exists(chosen / "shop.csv", unknown))
    return chosen;
  return chosen / ("shop-" + day);
}

Problem nothingImported(std::size_t errors) {
  const QString count = errors == 1 ? DataPanel::tr("1 error.") : DataPanel::tr("%1 errors.").arg(errors);
  return {DataPanel::tr("%1 Nothing was imported: mend the files and import again.").arg(count).toStdString(),
          {},
          {}};
}

}  // namespace

/// What the work brings back to the window.
struct DataPanel::Outcome {
  QString sentence;
  std::optional<db::Done> done;  ///< the shop was changed
  std::vector<db::ImportError> errors;
};

DataPanel::DataPanel(Session& session, QWidget* parent)
    : QFrame(parent), session_{session}, work_{new LongWork{this}} {
  setObjectName("dataPanel");
  setRank(this, "card");
  auto* layout = new QVBoxLayout{this};
  layout->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
  layout->setSpacing(kGrid);
  auto* title = new QLabel{tr("The shop’s data"), this};
  setRank(title, "subheading");
  layout->addWidget(title);
  auto* where = faded(tr("It lies in %1.").arg(say(session.folder().string())), this);
  where->setTextInteractionFlags(Qt::TextSelectableByMouse);
  layout->addWidget(where);

  buttons_ = new QWidget{this};
  auto* ways = new QVBoxLayout{buttons_};
  ways->setContentsMargins(0, 0, 0, 0);
  ways->setSpacing(kGrid);
  const auto way = [&](const QString& sentence) {
    auto* line = new QWidget{buttons_};
    auto* flow = new Flow{line, kGrid};
    flow->setContentsMargins(0, 0, 0, 0);
    ways->addWidget(line);
    ways->addWidget(faded(sentence, buttons_));
    return flow;
  };
  const auto button = [this](Flow* line, const QString& words, const char* name, auto does) {
    auto* made = new QPushButton{words, buttons_};
    made->setObjectName(name);
    line->addWidget(made);
    connect(made, &QPushButton::clicked, this, does);
  };
  Flow* backups = way(
      tr("Every day’s first change makes a backup in the shop’s folder “backups”. One file holds all of it, "
         "photos too: keep it on another disk. The first page of the program makes a shop of it again."));
  button(backups, tr("&Back up now"), "backUpNow", &DataPanel::backUpNow);
  button(backups, tr("Back up to one &file…"), "backUpTo", &DataPanel::chooseBackup);
  Flow* tables = way(tr(
      "As a folder of CSV tables, for a spreadsheet or another shop, without the photos. Of a single sheet "
      "you say which column is what. What is imported "
      "is added to what is here, in one step that Ctrl+Z takes back."));
  button(tables, tr("&Export…"), "exportShop", &DataPanel::chooseExport);
  button(tables, tr("&Import…"), "importFolder", &DataPanel::chooseImport);
  button(tables, tr("Import a single &sheet…"), "importSheetFile", &DataPanel::chooseSheet);
  layout->addWidget(buttons_);

  sheet_ = new SheetPanel{this};
  sheet_->hide();
  layout->addWidget(sheet_);
  connect(sheet_, &SheetPanel::wantsImport, this, &DataPanel::importSheet);
  connect(sheet_, &SheetPanel::left, sheet_, &QWidget::hide);
  makeBusyRow();
  layout->addWidget(busy_);
  told_ = new QLabel{this};
  told_->setObjectName("dataTold");
  told_->setWordWrap(true);
  told_->setTextFormat(Qt::PlainText);
  told_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  told_->hide();
  layout->addWidget(told_);
  errors_ = new ImportErrors{session, this};
  errors_->hide();
  layout->addWidget(errors_);
  again_ = new QPushButton{tr("Import it &again"), this};
  again_->setObjectName("importAgain");
  again_->hide();
  connect(again_, &QPushButton::clicked, this, [this] { importFrom(imported_); });
  layout->addWidget(again_, 0, Qt::AlignLeft);

  connect(work_, &LongWork::done, this, [this] { finish(outcome_->sentence, false); });
  connect(work_, &LongWork::failed, this, [this](const QString& sentence) { finish(sentence, true); });
  connect(work_, &LongWork::givenUp, this, [this] {
    // It may have been written before it could be given up.
    finish(outcome_->done ? outcome_->sentence : tr("Given up; nothing was changed."), false);
  });
}

DataPanel::~DataPanel() {
  if (!work_->running()) return;
  delete work_;  // waits for its end
  // The window may be going as well: it is told, if it is still there, once this is over.
  QMetaObject::invokeMethod(
      &session_, [&session = session_, out = outcome_] { session.resume(out->done); }, Qt::QueuedConnection);
}

void DataPanel::makeBusyRow() {
  busy_ = new QWidget{this};
  auto* row = new QHBoxLayout{busy_};
  row->setContentsMargins(0, 0, 0, 0);
  step_ = new QLabel{busy_};
  auto* bar = new QProgressBar{busy_};
  bar->setRange(0, 0);
  give_up_ = new QPushButton{tr("Give up"), busy_};
  give_up_->setObjectName("giveUp");
  row->addWidget(step_);
  row->addWidget(bar, 1);
  row->addWidget(give_up_);
  busy_->hide();
  connect(give_up_, &QPushButton::clicked, work_, &LongWork::cancel);
  connect(work_, &LongWork::stepped, step_, &QLabel::setText);
}

void DataPanel::run(const QString& step, bool can_be_given_up, const LongWork::Task& task) {
  step_->setText(step);
  give_up_->setVisible(can_be_given_up);
  buttons_->setEnabled(false);
  sheet_->setEnabled(false);
  told_->hide();
  errors_->hide();
  again_->hide();
  busy_->show();
  emit spoke();
  work_->start(task);
}

void DataPanel::finish(const QString& sentence, bool problem) {
  busy_->hide();
  buttons_->setEnabled(true);
  sheet_->setEnabled(true);
  if (outcome_->done) sheet_->hide();
  setRank(told_, problem ? "problem" : "good");
  told_->setText(sentence);
  told_->show();
  const bool has_errors = !outcome_->errors.empty();
  if (has_errors) errors_->setErrors(std::move(outcome_->errors));
  errors_->setVisible(has_errors);
  again_->setVisible(has_errors && !imported_.empty());
  emit spoke();
  session_.resume(outcome_->done);
  if (!outcome_->done) emit wantsSaid(sentence, problem);
}

void DataPanel::chooseExport() {
  const QString chosen = QFileDialog::getExistingDirectory(this, tr("The folder to export to"));
  if (!chosen.isEmpty()) exportTo(chosen.toStdString());
}

void DataPanel::chooseImport() {
  const QString chosen = QFileDialog::getExistingDirectory(this, tr("The folder to import"));
  if (!chosen.isEmpty()) importFrom(chosen.toStdString());
}

void DataPanel::chooseSheet() {
  const QString chosen = QFileDialog::getOpenFileName(this, tr("The sheet to import"), QDir::homePath(),
                                                      tr("CSV (*.csv);;All files (*)"));
  if (!chosen.isEmpty()) openSheet(chosen.toStdString());
}

void DataPanel::chooseBackup() {
  const QString name = say(session_.folder().filename().string() + "-" + iso(session_.today()) + ".tar.gz");
  const QString chosen = QFileDialog::getSaveFileName(this, tr("The file to back up to"),
                                                      QDir::home().filePath(name), tr("Backups (*.tar.gz)"));
  if (!chosen.isEmpty()) backUpTo(chosen.toStdString());
}

void DataPanel::exportTo(const fs::path& folder) {
  if (work_->running()) return;
  outcome_ = std::make_shared<Outcome>();
  run(tr("Writing the tables…"), false,
      [out = outcome_, shop = session_.shop(),
       into = exportFolder(folder, iso(session_.today()))](const LongWork::Reins&) -> std::optional<Problem> {
        if (const auto written = db::write_folder(*shop, into); !written) return written.error();
        const std::size_t machines = shop->all<Machine>().size();
        out->sentence = machines == 1
                            ? tr("Exported 1 machine to %1.").arg(say(into.string()))
                            : tr("Exported %1 machines to %2.").arg(machines).arg(say(into.string()));
        return std::nullopt;
      });
}

void DataPanel::importFrom(const fs::path& folder) {
  if (work_->running()) return;
  imported_ = folder;
  sheet_->hide();
  takeIn([folder](const Shop& existing) { return db::read_folder(folder, existing); }, say(folder.string()));
}

void DataPanel::openSheet(const fs::path& file) {
  if (work_->running()) return;
  outcome_ = std::make_shared<Outcome>();
  Result<db::SingleSheet> sheet = db::SingleSheet::open(file);
  if (!sheet) return finish(say(sheet.error().sentence), true);
  told_->hide();
  errors_->hide();
  again_->hide();
  sheet_->show(file, *std::move(sheet));
  emit spoke();
}

void DataPanel::importSheet() {
  if (work_->running() || !sheet_->sheet()) return;
  // Read anew: it may have been mended since.
  const std::vector<std::string> columns = sheet_->sheet()->columns();
  openSheet(sheet_->path());
  if (!told_->isHidden()) return;
  if (sheet_->sheet()->columns() != columns)
    return finish(tr("The sheet has other columns now: look again which is what."), true);
  imported_.clear();
  takeIn(
      [sheet = *sheet_->sheet(), kind = sheet_->kind(), choice = sheet_->choice(), order = sheet_->order()](
          const Shop& existing) { return db::read_single_sheet(sheet, kind, choice, order, existing); },
      say(sheet_->path().string()));
}

void DataPanel::takeIn(std::function<db::ImportResult(const Shop& existing)> read, const QString& from) {
  outcome_ = std::make_shared<Outcome>();
  // What is read refers to the records as they are now.
  session_.hold(tr("An import is under way: wait until it is in, or give it up under Settings."));
  run(tr("Reading…"), true,
      [out = outcome_, &session = session_, shop = session_.shop(), read = std::move(read), from,
       now = session_.now()](const LongWork::Reins& reins) -> std::optional<Problem> {
        db::ImportResult result = read(*shop);
        out->errors = std::move(result.errors);
        if (!out->errors.empty()) return nothingImported(out->errors.size());
        if (reins.cancelled()) return std::nullopt;
        reins.step(tr("Adding what was read…"));
        Result<db::Done> done = problem("");
        session.withStore([&](db::Store& store) { done = db::take_in(store, result.shop, now); });
        if (!done) return done.error();
        out->sentence = tr("%1 from %2.").arg(say(done->title), from);
        out->done = *std::move(done);
        return std::nullopt;
      });
}

void DataPanel::backUpNow() {
  if (work_->running()) return;
  outcome_ = std::make_shared<Outcome>();
  run(tr("Copying the shop…"), false,
      [out = outcome_, &session = session_,
       now = session_.now()](const LongWork::Reins&) -> std::optional<Problem> {
        Result<fs::path> made = problem("");
        session.withStore([&](db::Store& store) { made = store.backup_now(now); });
        if (!made) return made.error();
        out->sentence = tr("Backed up to %1.").arg(say(made->string()));
        return std::nullopt;
      });
}

void DataPanel::backUpTo(const fs::path& file) {
  if (work_->running()) return;
  outcome_ = std::make_shared<Outcome>();
  run(tr("Writing the file…"), false,
      [out = outcome_, folder = session_.folder(), file,
       now = session_.now()](const LongWork::Reins&) -> std::optional<Problem> {
        // Through a reader of its own, so that nothing that is done meanwhile has to wait.
        const Result<db::Store> store = db::Store::open(folder, db::Access::read, now);
        if (!store) return store.error();
        if (const auto made = store->backup_to(file); !made) return made.error();
        out->sentence = tr("Backed up to %1.").arg(say(file.string()));
        return std::nullopt;
      });
}

}  // namespace secondpull::app
