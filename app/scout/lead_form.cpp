#include "app/scout/lead_form.h"

#include <QLineEdit>

#include "app/bench/bench_panel.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "core/learning/knowledge_base.h"
#include "core/shop/guess.h"

namespace secondpull::app {
namespace {

constexpr std::int64_t kFirstYear = 1900;  // as the records take years
constexpr auto kMargin = "scout.margin";   // the preference

std::string typed(const QLineEdit* edit) {
  return edit->text().trimmed().toStdString();
}
QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

}  // namespace

struct LeadForm::Entry : public QObject {
  Entry(Session& session_in, LeadForm* form_in) : QObject(form_in), session{session_in}, form{form_in} {}
  Session& session;
  LeadForm* form;
  WordRow* kind = nullptr;
  QLineEdit* what = nullptr;
  CountEdit* year = nullptr;
  QLineEdit* symptom = nullptr;
  MoneyEdit* asking = nullptr;
  MoneyEdit* margin = nullptr;
  TenthsEdit* miles = nullptr;
  MinutesEdit* minutes = nullptr;
  MoneyEdit* pickup = nullptr;
  QLineEdit* place = nullptr;

  void build();
  void suggest();
  MachineKind kindChosen() const { return static_cast<MachineKind>(std::max(0, kind->current())); }
  Money driving() const;
};

void LeadForm::Entry::build() {
  const Currency currency = session.currency();
  QStringList kinds;
  for (const MachineKind each : all_words<MachineKind>())
    kinds << text(word(each));
  const QString distance = text(word(session.shop()->settings.unit_of_distance));
  kind = new WordRow{QStringLiteral("findKind"), kinds, form};
  what = new QLineEdit{form};
  what->setObjectName(QStringLiteral("findWhat"));
  what->setPlaceholderText(tr("the make first, then the model"));
  year = new CountEdit{QStringLiteral("findYear"), kFirstYear, form};
  symptom = new QLineEdit{form};
  symptom->setObjectName(QStringLiteral("findSymptom"));
  symptom->setPlaceholderText(tr("not tried"));
  asking = new MoneyEdit{QStringLiteral("findAsking"), currency, form};
  asking->setPlaceholderText(tr("nothing said"));
  margin = new MoneyEdit{QStringLiteral("findMargin"), currency, form};
  miles = new TenthsEdit{QStringLiteral("findMiles"), distance, form};
  minutes = new MinutesEdit{QStringLiteral("findMinutes"), form};
  pickup = new MoneyEdit{QStringLiteral("findPickup"), currency, form};
  place = new QLineEdit{form};
  place->setObjectName(QStringLiteral("findPlace"));

  form->setColumns(2);
  form->addField("kind", tr("What it is"), kind, 2);
  form->addField("what", tr("Make and model"), what);
  form->addField("year", tr("Year"), year);
  form->addField("symptom", tr("What it does wrong"), symptom, 2);
  form->addField("asking", tr("Asking price"), asking);
  form->addField("margin", tr("Must leave me at least"), margin);
  form->addField("miles", tr("There and back, %1").arg(distance), miles);
  form->addField("minutes", tr("Time to fetch it"), minutes);
  form->addField("pickup_cost", tr("Money for the pickup, besides driving"), pickup);
  form->addField("place", tr("Where, or who"), place);

  connect(kind, &WordRow::chosen, this, [this] {
    suggest();
    emit form->edited();
  });
  for (QLineEdit* edit :
       std::initializer_list<QLineEdit*>{what, year, symptom, asking, miles, minutes, pickup})
    connect(edit, &QLineEdit::textChanged, form, &LeadForm::edited);
  connect(margin, &QLineEdit::textChanged, this, [this] {
    session.setPreference(QString::fromLatin1(kMargin), margin->text().trimmed());
    emit form->edited();
  });
}

/// The symptoms for the kind, as completions.
void LeadForm::Entry::suggest() {
  QStringList names;
  const auto base = session.knowledge();
  for (const auto* each : planning::symptoms_of(kindChosen(), base->knowledge))
    names << text(each->name);
  completeFrom(symptom, names);
}

Money LeadForm::Entry::driving() const {
  const Settings& settings = session.shop()->settings;
  const auto distance = miles->value();
  if (!distance || settings.currency.code != "USD" || settings.unit_of_distance != DistanceUnit::mi)
    return {};
  const auto cost = session.mileageRates().cost(Trip{.date = session.today(), .miles = *distance});
  return cost ? *cost : Money{};
}

LeadForm::LeadForm(Session& session, QWidget* parent)
    : Form(session, QStringLiteral("scout.find"), tr("A find"), parent), entry_{new Entry{session, this}} {
  entry_->build();
  setSaveText(tr("Keep this find"));
  entry_->suggest();
}

LeadForm::~LeadForm() = default;

void LeadForm::startAfresh() {
  empty();
  entry_->kind->setCurrent(static_cast<int>(usual_kind(*entry_->session.shop())));
  entry_->margin->setText(entry_->session.preference(QString::fromLatin1(kMargin)));
  entry_->suggest();
  noteFilled();
  emit edited();
}

void LeadForm::fillFrom(const Find& find) {
  empty();
  Entry& in = *entry_;
  in.kind->setCurrent(static_cast<int>(find.kind));
  in.what->setText(text(find.make + (find.make.empty() || find.model.empty() ? "" : " ") + find.model));
  in.year->setValue(find.year ? std::optional<std::int64_t>{*find.year} : std::nullopt);
  const auto base = in.session.knowledge();
  const auto* symptom = base->knowledge.symptom(find.symptom);
  in.symptom->setText(text(symptom != nullptr ? symptom->name : find.symptom));
  in.asking->setValue(find.asking);
  in.margin->setText(in.session.preference(QString::fromLatin1(kMargin)));
  in.miles->setValue(find.miles);
  in.minutes->setValue(find.minutes);
  in.pickup->setValue(find.pickup_cost.is_zero() ? std::nullopt : std::optional{find.pickup_cost});
  in.place->setText(text(find.place));
  in.suggest();
  noteFilled();
  emit edited();
}

void LeadForm::setSymptom(const QString& symptom) {
  entry_->symptom->setText(symptom);
}

planning::Lead LeadForm::lead() const {
  const Entry& in = *entry_;
  const MakeAndModel split = split_make_model(*in.session.shop(), typed(in.what));
  return {.machine = {.kind = in.kindChosen(),
                      .make = split.make,
                      .model = split.model,
                      .year = in.year->value() ? std::optional{static_cast<int>(*in.year->value())}
                                               : std::nullopt,
                      .symptom = typed(in.symptom)},
          .asking = in.asking->value(),
          .pickup_cost = in.pickup->value().value_or(Money{}) + in.driving(),
          .minutes = in.minutes->value().value_or(Minutes{}),
          .margin = in.margin->value().value_or(Money{})};
}

NewFind LeadForm::newFind() const {
  const Entry& in = *entry_;
  const MakeAndModel split = split_make_model(*in.session.shop(), typed(in.what));
  NewFind find{.date = in.session.today(),
               .kind = in.kindChosen(),
               .make = split.make,
               .model = split.model,
               .symptom = typed(in.symptom),
               .asking = in.asking->value().value_or(Money{}),
               .miles = in.miles->value(),
               .minutes = in.minutes->value(),
               .pickup_cost = in.pickup->value().value_or(Money{}),
               .place = typed(in.place)};
  if (const auto year = in.year->value()) find.year = static_cast<int>(*year);
  return find;
}

Find LeadForm::over(Find find) const {
  const NewFind now = newFind();
  find.kind = now.kind;
  find.make = now.make;
  find.model = now.model;
  find.year = now.year;
  find.symptom = now.symptom;
  find.asking = now.asking;
  find.miles = now.miles;
  find.minutes = now.minutes;
  find.pickup_cost = now.pickup_cost;
  find.place = now.place;
  return find;
}

}  // namespace secondpull::app
