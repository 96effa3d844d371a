#include "app/yard/spent_page.h"

#include <QCompleter>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QScrollArea>
#include <QStandardPaths>
#include <QStringListModel>
#include <QVBoxLayout>

#include "app/frame/page.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/photo_reading.h"
#include "app/yard/spent_rows.h"
#include "core/shop/spent.h"

namespace secondpull::app {
namespace {

/// Holds one picture of a paper until the form is saved; files are dropped on it or chosen.
class PaperDrop : public QWidget {
 public:
  PaperDrop(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
    setObjectName("paperDrop");
    setAcceptDrops(true);
    auto* line = new QHBoxLayout{this};
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(kGrid);
    picture_ = new QLabel{this};
    words_ = faded({}, this);
    auto* choose = new QPushButton{tr("Choose"), this};
    choose->setObjectName("choosePaper");
    choose->setAccessibleName(tr("Choose a photo of the paper"));
    away_ = new QPushButton{tr("Take away"), this};
    away_->setObjectName("dropPaper");
    setRank(away_, "quiet");
    line->addWidget(picture_);
    line->addWidget(words_);
    line->addWidget(choose);
    line->addWidget(away_);
    line->addStretch(1);
    connect(choose, &QPushButton::clicked, this, [this] {
      const QString path = QFileDialog::getOpenFileName(
          this, tr("Photo of the paper"), QStandardPaths::writableLocation(QStandardPaths::PicturesLocation));
      if (!path.isEmpty()) take(path);
    });
    connect(away_, &QPushButton::clicked, this, [this] { setPaper(std::nullopt); });
    setPaper(std::nullopt);
  }

  std::optional<Paper> paper() const { return paper_; }
  void setPaper(const std::optional<Paper>& paper) {
    paper_ = paper;
    away_->setVisible(paper.has_value());
    QPixmap pixmap;
    if (paper) pixmap.loadFromData(session_.photo(paper->sha256));
    constexpr int kSide = 5 * kGrid;
    if (!pixmap.isNull())
      pixmap = pixmap.scaled(QSize{kSide, kSide} * devicePixelRatioF(), Qt::KeepAspectRatio,
                             Qt::SmoothTransformation);
    pixmap.setDevicePixelRatio(devicePixelRatioF());
    picture_->setPixmap(pixmap);
    picture_->setVisible(!pixmap.isNull());
    words_->setText(paper ? QString::fromStdString(paper->name) : tr("Drop it here, or"));
    if (onChange) onChange();
  }
  /// Takes in a file; what is wrong with it is said in the field's place.
  void take(const QString& path) {
    const Result<PhotoFile> file = readPhotoFile(path);
    if (!file) return words_->setText(QString::fromStdString(file.error().sentence));
    const Result<std::string> kept = session_.keepPhoto(file->content);
    if (!kept) return words_->setText(QString::fromStdString(kept.error().sentence));
    setPaper(Paper{*kept, file->name.toStdString()});
  }
  std::function<void()> onChange;

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override {
    if (event->mimeData()->hasUrls()) event->acceptProposedAction();
  }
  void dropEvent(QDropEvent* event) override {
    for (const QUrl& url : event->mimeData()->urls())
      if (url.isLocalFile()) {
        event->setDropAction(Qt::CopyAction);
        event->accept();
        take(url.toLocalFile());
        return;
      }
  }

 private:
  Session& session_;
  QLabel* picture_ = nullptr;
  QLabel* words_ = nullptr;
  QPushButton* away_ = nullptr;
  std::optional<Paper> paper_;
};

class SpentPage : public Page {
 public:
  SpentPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Spent"); }
  QString iconName() const override { return QStringLiteral("spent"); }
  QKeySequence key() const override { return QKeySequence{"Ctrl+M"}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void openMachine(MachineId machine) override;
  void start() override { form_->open(); }

 private:
  void build(QVBoxLayout* page);
  void arrange();
  void startAfresh();
  SpentEntry::For whatFor() const { return static_cast<SpentEntry::For>(for_->current()); }
  SpentEntry entry() const;
  std::optional<Problem> save();

  Form* form_ = nullptr;
  MoneyEdit* amount_ = nullptr;
  RecordPicker* where_ = nullptr;
  PaperDrop* paper_ = nullptr;
  WordRow* for_ = nullptr;
  RecordPicker* machine_ = nullptr;
  QLineEdit* what_ = nullptr;
  RecordPicker* part_ = nullptr;
  CountEdit* quantity_ = nullptr;
  WordRow* in_hand_ = nullptr;
  QLineEdit* category_ = nullptr;
  QStringListModel* categories_ = nullptr;
  QLineEdit* note_ = nullptr;
  DateEdit* day_ = nullptr;
};

SpentPage::SpentPage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName("spentPage");
  auto* page = new QVBoxLayout{this};
  page->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  page->setSpacing(kGrid);
  page->addWidget(heading(tr("What was spent?"), this));
  build(page);
  page->addStretch(1);
}

void SpentPage::build(QVBoxLayout* page) {
  form_ = new Form{session(), "yard.spent", {}, this};
  form_->setAccessibleName(tr("Money spent"));
  constexpr int kFormWidth = 96 * kGrid;  // a line is read better when it is not as wide as the window
  form_->setMaximumWidth(grown(kFormWidth));
  form_->setSaveText(tr("Write it down"));
  amount_ = new MoneyEdit{"amountEdit", session().currency(), form_};
  amount_->setRequired(true);
  where_ = new RecordPicker{session(), RecordPicker::Of::person, "wherePicker", form_};
  paper_ = new PaperDrop{session(), form_};
  for_ = new WordRow{"forRow", {tr("a machine"), tr("parts"), tr("the shop")}, form_};
  machine_ = new RecordPicker{session(), RecordPicker::Of::machine_here, "machinePicker", form_};
  what_ = new QLineEdit{form_};
  what_->setObjectName("whatEdit");
  part_ = new RecordPicker{session(), RecordPicker::Of::part, "partPicker", form_};
  quantity_ = new CountEdit{"quantityEdit", 1, form_};
  quantity_->setPlaceholderText("1");
  in_hand_ = new WordRow{"inHandRow", {tr("in hand"), tr("still to come")}, form_};
  category_ = new QLineEdit{form_};
  category_->setObjectName("categoryEdit");
  categories_ = new QStringListModel{usedCategories(session()), this};
  auto* completer = new QCompleter{categories_, category_};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  category_->setCompleter(completer);
  note_ = new QLineEdit{form_};
  note_->setObjectName("noteEdit");
  day_ = new DateEdit{"dayEdit", session().today(), form_};

  form_->setColumns(4);
  form_->addField("amount", tr("How much"), amount_);
  form_->addField("where", tr("Where"), where_, 2);
  form_->addField("date", tr("Day"), day_);
  form_->addField("photo", tr("Photo of the paper"), paper_, 4);
  form_->addField("for", tr("What it was for"), for_, 4);
  form_->addField("part", tr("Which part"), part_, 3);
  form_->addField("quantity", tr("How many"), quantity_);
  form_->addField("arrived", tr("Where they are"), in_hand_, 4);
  form_->addField("machine", tr("Which machine"), machine_, 2);
  form_->addField("what", tr("What was bought"), what_, 2);
  form_->addField("category", tr("Kind of cost"), category_, 2);
  form_->addField("note", tr("Note"), note_, 2);
  // Tab goes in the order in which a person knows the answers; the day is nearly always today.
  QWidget* const order[]{amount_,   where_,   paper_->findChild<QPushButton*>("choosePaper"),
                         for_,      part_,    quantity_,
                         in_hand_,  machine_, what_,
                         category_, note_,    day_};
  for (std::size_t at = 1; at < std::size(order); ++at)
    setTabOrder(order[at - 1], order[at]);
  setTabOrder(day_, form_->findChild<QPushButton*>("save"));

  form_->setExtraDraft(
      [this] {
        const auto paper = paper_->paper();
        return paper ? QString::fromStdString(paper->sha256 + " " + paper->name) : QString{};
      },
      [this](const QString& text) {
        const auto space = text.indexOf(' ');
        if (space > 0)
          paper_->setPaper(Paper{text.left(space).toStdString(), text.mid(space + 1).toStdString()});
      });
  paper_->onChange = [this] { form_->noteEdited(); };
  form_->onSave([this] { return save(); });
  connect(for_, &WordRow::chosen, this, &SpentPage::arrange);
  connect(form_, &Form::saved, this, [this] {
    startAfresh();
    form_->open();
  });
  connect(form_, &Form::left, this, [this] {
    form_->show();
    emit wantsPage(tr("Yard"), MachineId{});
  });
  day_->setValue(session().today());
  arrange();
  page->addWidget(form_);
}

void SpentPage::arrange() {
  const SpentEntry::For what_for = whatFor();
  const bool machine = what_for == SpentEntry::For::machine;
  const bool order = what_for == SpentEntry::For::order;
  form_->setFieldShown("machine", machine || order);
  form_->setFieldShown("what", machine);
  for (const char* field : {"part", "quantity", "arrived"})
    form_->setFieldShown(field, order);
  for (const char* field : {"category", "note"})
    form_->setFieldShown(field, what_for == SpentEntry::For::shop);
}

void SpentPage::startAfresh() {
  form_->clear();
  paper_->setPaper(std::nullopt);
  day_->setValue(session().today());
  arrange();
}

SpentEntry SpentPage::entry() const {
  SpentEntry made{.date = day_->value().value_or(session().today()),
                  .amount = amount_->value().value_or(Money{}),
                  .paper = paper_->paper(),
                  .what_for = whatFor(),
                  .machine = machine_->picked<MachineId>(),
                  .what = what_->text().trimmed().toStdString(),
                  .quantity = quantity_->value().value_or(1),
                  .in_hand = in_hand_->current() == 0,
                  .category = category_->text().trimmed().toStdString(),
                  .note = note_->text().trimmed().toStdString()};
  made.where.known = where_->picked<PersonId>();
  if (where_->isNew()) made.where.new_name = where_->text().trimmed().toStdString();
  made.part.known = part_->picked<PartId>();
  if (part_->isNew()) made.part.new_name = part_->text().trimmed().toStdString();
  return made;
}

std::optional<Problem> SpentPage::save() {
  if (machine_->isVisible() && machine_->isNew())
    return Problem{tr("No machine here has that tag or name.").toStdString(), "machine",
                   machine_->text().toStdString()};
  return session().perform(write_spent(*session().shop(), entry()));
}

void SpentPage::refresh(const std::vector<AnyId>&) {
  categories_->setStringList(usedCategories(session()));
}

void SpentPage::openMachine(MachineId machine) {
  for_->setCurrent(static_cast<int>(SpentEntry::For::machine));
  arrange();
  machine_->setPicked(number(machine));
}

}  // namespace

Page* makeSpentPage(Session& session, QWidget* parent) {
  return new SpentPage{session, parent};
}

}  // namespace secondpull::app
