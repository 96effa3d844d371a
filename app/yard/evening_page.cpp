#include "app/yard/evening_page.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/frame/page.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/yard/spent_rows.h"
#include "app/yard/touched_rows.h"

namespace secondpull::app {
namespace {

class EveningPage : public Page {
 public:
  EveningPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Evening"); }
  QString iconName() const override { return QStringLiteral("evening"); }
  QKeySequence key() const override { return QKeySequence{"Ctrl+E"}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void openMachine(MachineId machine) override;
  void start() override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build(QVBoxLayout* page);
  void offer();
  Date day() const { return day_->value().value_or(session().today()); }
  std::optional<Problem> save();

  Form* form_ = nullptr;
  DateEdit* day_ = nullptr;
  TouchedRows* touched_ = nullptr;
  RecordPicker* other_ = nullptr;
  TenthsEdit* miles_ = nullptr;
  QLineEdit* purpose_ = nullptr;
  QLineEdit* destination_ = nullptr;
  RecordPicker* drive_for_ = nullptr;
  SpentRows* spent_ = nullptr;
  std::optional<Date> offered_for_;
};

EveningPage::EveningPage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName("eveningPage");
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  auto* scroll = new QScrollArea{this};
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidgetResizable(true);
  scroll->setFocusPolicy(Qt::NoFocus);
  outer->addWidget(scroll);
  auto* content = new QWidget{scroll};
  auto* page = new QVBoxLayout{content};
  page->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  page->setSpacing(kGrid);
  page->addWidget(heading(tr("Which machines did you touch today?"), content));
  page->addWidget(
      faded(tr("Tick them and put the time right. Enter writes the whole day down, and one undo takes "
               "it all back."),
            content));
  build(page);
  page->addStretch(1);
  scroll->setWidget(content);
}

void EveningPage::build(QVBoxLayout* page) {
  form_ = new Form{session(), "yard.evening", {}, this};
  form_->setAccessibleName(tr("The day, written down in the evening"));
  form_->setColumns(4);
  form_->setSaveText(tr("Write it all down"));
  const auto unit = secondpull::word(session().shop()->settings.unit_of_distance);
  const QString distance = QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size()));
  day_ = new DateEdit{"dayEdit", session().today(), form_};
  other_ = new RecordPicker{session(), RecordPicker::Of::machine_here, "otherPicker", form_};
  other_->installEventFilter(this);
  other_->setPlaceholderText(tr("tag or name; Enter adds it"));
  miles_ = new TenthsEdit{"milesEdit", distance, form_};
  purpose_ = new QLineEdit{form_};
  purpose_->setObjectName("purposeEdit");
  destination_ = new QLineEdit{form_};
  destination_->setObjectName("destinationEdit");
  drive_for_ = new RecordPicker{session(), RecordPicker::Of::machine_any, "driveForPicker", form_};
  touched_ = new TouchedRows{session(), form_};
  spent_ = new SpentRows{session(), form_};

  form_->addWide(touched_);
  form_->addField("machine", tr("Another machine"), other_, 3);
  form_->addField("day", tr("Day"), day_);
  form_->addField("miles", tr("Driven, %1").arg(distance), miles_);
  form_->addField("purpose", tr("What for"), purpose_);
  form_->addField("destination", tr("Where to"), destination_);
  form_->addField("drive_for", tr("For which machine, if one"), drive_for_);
  form_->addWide(spent_);
  form_->setExtraDraft(
      [this] {
        return QString::fromUtf8(
            QJsonDocument{QJsonObject{{"machines", touched_->draft()}, {"spent", spent_->draft()}}}.toJson(
                QJsonDocument::Compact));
      },
      [this](const QString& text) {
        const QJsonObject kept = QJsonDocument::fromJson(text.toUtf8()).object();
        touched_->restore(kept["machines"].toArray());
        spent_->restore(kept["spent"].toArray());
      });
  form_->onSave([this] { return save(); });
  connect(touched_, &TouchedRows::edited, form_, &Form::noteEdited);
  connect(spent_, &SpentRows::edited, form_, &Form::noteEdited);
  connect(day_, &QLineEdit::editingFinished, this, [this] {
    if (offered_for_ && day() != *offered_for_ && !session().draft(form_->objectName())) offer();
  });
  connect(form_, &Form::saved, this, [this] {
    form_->clear();
    spent_->clear();
    day_->setValue(session().today());
    offer();
    form_->open();
  });
  connect(form_, &Form::left, this, [this] {
    form_->show();
    emit wantsPage(tr("Yard"), MachineId{});
  });
  day_->setValue(session().today());
  spent_->setTabAfter(drive_for_);
  page->addWidget(form_);
}

void EveningPage::offer() {
  offered_for_ = day();
  touched_->offer(*offered_for_);
}

std::optional<Problem> EveningPage::save() {
  if (const auto machine = other_->picked<MachineId>()) {
    touched_->add(*machine);
    other_->clear();
  } else if (other_->isNew()) {
    return Problem{tr("No machine here has that tag or name.").toStdString(), "machine",
                   other_->text().toStdString()};
  }
  if (auto wrong = touched_->problem()) return wrong;
  if (auto wrong = spent_->problem()) return wrong;
  EveningEntry entry{.date = day(),
                     .machines = touched_->ticked(),
                     .miles = miles_->value(),
                     .purpose = purpose_->text().trimmed().toStdString(),
                     .destination = destination_->text().trimmed().toStdString(),
                     .drive_for = drive_for_->picked<MachineId>(),
                     .expenses = spent_->expenses()};
  if (drive_for_->isNew())
    return Problem{tr("No machine has that tag or name.").toStdString(), "drive_for",
                   drive_for_->text().toStdString()};
  return session().perform(write_evening(*session().shop(), entry));
}

/// Enter in the picker adds the machine and stays; only then does Enter write the day down.
bool EveningPage::eventFilter(QObject* watched, QEvent* event) {
  if (watched != other_ || event->type() != QEvent::KeyPress) return Page::eventFilter(watched, event);
  const int key = static_cast<QKeyEvent*>(event)->key();
  const auto machine = other_->picked<MachineId>();
  if ((key != Qt::Key_Return && key != Qt::Key_Enter) || !machine) return Page::eventFilter(watched, event);
  touched_->add(*machine);
  other_->clear();
  return true;
}

void EveningPage::refresh(const std::vector<AnyId>&) {
  // What was offered stays while somebody is filling it in.
  if (!session().draft(form_->objectName()) && !isVisible()) offered_for_.reset();
}

void EveningPage::openMachine(MachineId machine) {
  if (!offered_for_) offer();
  touched_->add(machine);
}

void EveningPage::start() {
  if (!offered_for_) offer();
  form_->open();
  if (!session().draft(form_->objectName()))
    touched_->isEmpty() ? other_->setFocus() : touched_->focusFirst();
}

}  // namespace

Page* makeEveningPage(Session& session, QWidget* parent) {
  return new EveningPage{session, parent};
}

}  // namespace secondpull::app
