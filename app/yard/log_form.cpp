#include "app/yard/log_form.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QJsonDocument>
#include <QLineEdit>
#include <QPushButton>

#include "app/bench/bench_panel.h"
#include "app/bench/suggestions.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/yard/lot_rows.h"
#include "app/yard/seen_work.h"
#include "core/shop/guess.h"

namespace secondpull::app {
namespace {

constexpr int kMostInALot = 60;  // more than ever came on one trailer

template <class Word>
QStringList wordsOf() {
  QStringList words;
  for (const Word value : all_words<Word>()) {
    const std::string_view it = word(value);
    words.push_back(QString::fromUtf8(it.data(), static_cast<qsizetype>(it.size())));
  }
  return words;
}

std::string typed(const QLineEdit* edit) {
  return edit->text().trimmed().toStdString();
}

}  // namespace

struct LogForm::Entry : public QObject {
  Entry(Session& session_in, LogForm* form_in) : QObject(form_in), session{session_in}, form{form_in} {}

  Session& session;
  LogForm* form;
  WordRow* kind = nullptr;
  QLineEdit* what = nullptr;
  WordRow* source = nullptr;
  MoneyEdit* price = nullptr;
  QLineEdit* symptom = nullptr;
  TenthsEdit* miles = nullptr;
  RecordPicker* from = nullptr;
  QLineEdit* tag = nullptr;
  DateEdit* date = nullptr;
  CountEdit* count = nullptr;
  LotRows* lot = nullptr;
  QPushButton* more = nullptr;
  QLineEdit* model_number = nullptr;
  QLineEdit* serial = nullptr;
  QLineEdit* engine = nullptr;
  CountEdit* year = nullptr;
  TenthsEdit* deck = nullptr;
  QLineEdit* condition = nullptr;
  SeenWork* seen = nullptr;
  MoneyEdit* value_then = nullptr;
  MoneyEdit* pickup_cost = nullptr;
  MoneyEdit* giver_basis = nullptr;
  MinutesEdit* minutes = nullptr;
  QLineEdit* destination = nullptr;
  QLineEdit* note = nullptr;
  QCheckBox* opening = nullptr;
  std::optional<QString> blank;  ///< what the form held when it was filled with guesses

  void build();
  void buildMore();
  void arrange();
  void fillGuesses();
  void startAfresh();
  void open(int machines);
  int machinesAsked() const { return static_cast<int>(count->value().value_or(1)); }
  bool isLot() const { return machinesAsked() > 1; }
  NewMachine one() const;
  NewAcquisition acquisition() const;
  QString typedSoFar() const;
  std::optional<Problem> save();
};

void LogForm::Entry::build() {
  const Currency currency = session.currency();
  const auto unit = word(session.shop()->settings.unit_of_distance);
  const QString distance = QString::fromUtf8(unit.data(), static_cast<qsizetype>(unit.size()));
  kind = new WordRow{"kindRow", wordsOf<MachineKind>(), form};
  what = new QLineEdit{form};
  what->setObjectName("whatEdit");
  what->setPlaceholderText(tr("the make first, then the model"));
  source = new WordRow{"sourceRow", wordsOf<Source>(), form};
  price = new MoneyEdit{"priceEdit", currency, form};
  price->setPlaceholderText(session.money(Money{}));
  miles = new TenthsEdit{"milesEdit", distance, form};
  symptom = new QLineEdit{form};
  symptom->setObjectName("symptomEdit");
  symptom->setPlaceholderText(tr("not tried yet"));
  from = new RecordPicker{session, RecordPicker::Of::person, "fromPicker", form};
  tag = new QLineEdit{form};
  tag->setObjectName("tagEdit");
  date = new DateEdit{"dateEdit", session.today(), form};
  count = new CountEdit{"countEdit", 1, form};
  count->setPlaceholderText("1");
  lot = new LotRows{session, form};

  form->setColumns(4);
  form->addField("kind", tr("What it is"), kind, 3);
  form->addField("what", tr("Make and model"), what);
  form->addField("source", tr("Where it came from"), source, 2);
  form->addField("price", tr("What it cost"), price);
  form->addField("miles", tr("There and back, %1").arg(distance), miles);
  form->addField("symptom", tr("What it does wrong"), symptom, 4);
  condition = new QLineEdit{form};
  condition->setObjectName("conditionEdit");
  seen = new SeenWork{session, condition, form};
  form->addWide(seen);
  form->addField("from", tr("From whom"), from);
  form->addField("tag", tr("Tag"), tag);
  form->addField("date", tr("Came in"), date);
  form->addField("count", tr("How many for that price"), count);
  form->addWide(lot);
  lot->setTabAfter(count);

  more = new QPushButton{tr("More"), form};
  more->setObjectName("moreButton");
  more->setCheckable(true);
  more->setAccessibleName(tr("More about the machine and how it came"));
  setRank(more, "quiet");
  auto* more_line = new QWidget{form};
  auto* more_layout = new QHBoxLayout{more_line};
  more_layout->setContentsMargins(0, 0, 0, 0);
  more_layout->addWidget(more);
  more_layout->addStretch(1);
  form->addWide(more_line);
  buildMore();

  connect(count, &QLineEdit::textChanged, this, [this] { arrange(); });
  connect(tag, &QLineEdit::textChanged, this, [this] { arrange(); });
  connect(more, &QPushButton::toggled, this, [this] { arrange(); });
  for (WordRow* row : {kind, source})
    connect(row, &WordRow::chosen, this, [this] { arrange(); });
  for (MoneyEdit* paid : {price, pickup_cost})
    connect(paid, &QLineEdit::textChanged, this, [this] {
      lot->setPaid(price->value().value_or(Money{}) + pickup_cost->value().value_or(Money{}));
    });
}

void LogForm::Entry::buildMore() {
  const Currency currency = session.currency();
  const auto line = [&](const char* name) {
    auto* edit = new QLineEdit{form};
    edit->setObjectName(name);
    return edit;
  };
  constexpr std::int64_t kFirstYear = 1900;  // as the exchange folder takes years
  model_number = line("modelNumberEdit");
  serial = line("serialEdit");
  engine = line("engineEdit");
  year = new CountEdit{"yearEdit", kFirstYear, form};
  deck = new TenthsEdit{"deckEdit", "in", form};
  value_then = new MoneyEdit{"valueThenEdit", currency, form};
  pickup_cost = new MoneyEdit{"pickupCostEdit", currency, form};
  giver_basis = new MoneyEdit{"giverBasisEdit", currency, form};
  minutes = new MinutesEdit{"minutesEdit", form};
  destination = line("destinationEdit");
  note = line("noteEdit");
  opening = new QCheckBox{tr("Was here when the books begin"), form};
  opening->setObjectName("openingBox");
  form->addField("model_number", tr("Model number"), model_number);
  form->addField("serial", tr("Serial number"), serial);
  form->addField("engine", tr("Engine"), engine);
  form->addField("year", tr("Year"), year);
  form->addField("deck_in", tr("Width of cut, inches"), deck);
  form->addField("condition", tr("Condition"), condition);
  form->addField("value_then", tr("Worth that day"), value_then);
  form->addField("pickup_cost", tr("Paid for the pickup"), pickup_cost);
  form->addField("minutes", tr("Time to fetch it"), minutes);
  form->addField("destination", tr("Fetched at"), destination);
  form->addField("opening", tr("Opening stock"), opening);
  form->addField("giver_basis", tr("What the giver had in it"), giver_basis);
  form->addField("note", tr("Note"), note, 4);
}

/// Shows what the choices so far ask for.
void LogForm::Entry::arrange() {
  const int machines = std::min(machinesAsked(), kMostInALot);
  const bool several = machines > 1;
  const bool all = more->isChecked();
  for (const char* field : {"kind", "what", "symptom"})
    form->setFieldShown(field, !several);
  for (const char* field : {"model_number", "serial", "engine", "year", "deck_in", "condition", "value_then"})
    form->setFieldShown(field, all && !several);
  for (const char* field : {"pickup_cost", "minutes", "destination", "opening", "note"})
    form->setFieldShown(field, all);
  form->setFieldShown("giver_basis", all && static_cast<Source>(source->current()) == Source::gift);
  seen->setVisible(!several);
  seen->setKind(static_cast<MachineKind>(kind->current()));
  more->setText(all ? tr("Less") : tr("More"));
  const QString first_tag = tag->text().trimmed().isEmpty() ? tag->placeholderText() : tag->text().trimmed();
  lot->setVisible(several);
  lot->setCount(several ? machines : 0, first_tag);
}

void LogForm::Entry::startAfresh() {
  form->clear();
  lot->clear();
  lot->setPaid({});
  fillGuesses();
}

void LogForm::Entry::fillGuesses() {
  const auto shop = session.shop();
  kind->setCurrent(static_cast<int>(usual_kind(*shop)));
  source->setCurrent(static_cast<int>(usual_source(*shop)));
  tag->setPlaceholderText(QString::fromStdString(next_tag(*shop)));
  completeFrom(symptom, symptomsBefore(*shop));
  tag->setAccessibleDescription(tr("Leave it empty for the next number, %1.").arg(tag->placeholderText()));
  date->setValue(session.today());
  arrange();
  blank = typedSoFar();
}

QString LogForm::Entry::typedSoFar() const {
  QStringList all{QString::number(kind->current()), QString::number(source->current())};
  for (const QLineEdit* edit : form->findChildren<QLineEdit*>()) {
    const auto* maybe = qobject_cast<const TypedEdit*>(edit);
    all.push_back(maybe != nullptr && maybe->isGuess() ? QString{} : edit->text());
  }
  return all.join(QChar::LineFeed);
}

void LogForm::Entry::open(int machines) {
  // A form that was left half filled comes back as it was, or is offered by its draft.
  const bool half_filled = session.draft(form->objectName()).has_value();
  if (!half_filled) startAfresh();
  if (half_filled && !blank) fillGuesses();
  if (!half_filled && machines > 1) count->setText(QString::number(machines));
  form->open();
  if (machines > 1 && count->isEnabled()) count->setFocus();
}

NewMachine LogForm::Entry::one() const {
  const MakeAndModel split = split_make_model(*session.shop(), what->text().toStdString());
  NewMachine machine{.kind = static_cast<MachineKind>(kind->current()),
                     .make = split.make,
                     .model = split.model,
                     .model_number = typed(model_number),
                     .serial = typed(serial),
                     .engine = typed(engine),
                     .deck_in = deck->value(),
                     .symptom = typed(symptom),
                     .condition = typed(condition),
                     .value_then = value_then->value()};
  if (const auto made = year->value()) machine.year = static_cast<int>(*made);
  if (machine.symptom.empty()) machine.symptom = symptom->placeholderText().toStdString();
  return machine;
}

NewAcquisition LogForm::Entry::acquisition() const {
  NewAcquisition made{.date = date->value().value_or(session.today()),
                      .source = static_cast<Source>(source->current()),
                      .price = price->value().value_or(Money{}),
                      .pickup_cost = pickup_cost->value().value_or(Money{}),
                      .opening = opening->isChecked(),
                      .miles = miles->value(),
                      .destination = typed(destination),
                      .minutes = minutes->value(),
                      .note = typed(note)};
  made.from.known = from->picked<PersonId>();
  if (from->isNew()) made.from.new_name = typed(from);
  if (made.source == Source::gift) made.giver_basis = giver_basis->value();
  if (made.miles && made.miles->count == 0) made.miles.reset();
  if (made.minutes && made.minutes->count == 0) made.minutes.reset();
  made.machines = isLot() ? lot->machines() : std::vector<NewMachine>{one()};
  made.machines.front().tag = typed(tag);
  return made;
}

std::optional<Problem> LogForm::Entry::save() {
  if (blank == typedSoFar()) {
    form->leave();
    return std::nullopt;
  }
  if (machinesAsked() > kMostInALot)
    return Problem{tr("A lot holds at most %1 machines.").arg(kMostInALot).toStdString(), "count",
                   count->text().toStdString()};
  if (isLot())
    if (auto wrong = lot->problem()) return wrong;
  const auto before = session.shop();
  if (auto wrong = session.perform(log_acquisition(*before, acquisition()))) return wrong;
  for (const Machine& machine : session.shop()->all<Machine>())
    if (before->find(machine.id) == nullptr) {
      emit form->logged(machine.id);
      break;
    }
  return std::nullopt;
}

LogForm::LogForm(Session& session, QWidget* parent)
    : Form(session, "yard.log-machine", tr("Log a machine"), parent), entry_{new Entry{session, this}} {
  entry_->build();
  setSaveText(tr("Log it"));
  setExtraDraft(
      [this] {
        return QString::fromUtf8(QJsonDocument{entry_->lot->draft()}.toJson(QJsonDocument::Compact));
      },
      [this](const QString& text) { entry_->lot->restore(QJsonDocument::fromJson(text.toUtf8()).array()); });
  onSave([this] { return entry_->save(); });
  connect(entry_->lot, &LotRows::edited, this, &Form::noteEdited);
  connect(this, &Form::saved, this, [this] {
    if (isVisible()) openForOne();
  });
  entry_->arrange();
  hide();
}

LogForm::~LogForm() = default;

void LogForm::openForOne() {
  entry_->open(1);
}
void LogForm::openForLot() {
  entry_->open(2);
}

}  // namespace secondpull::app
