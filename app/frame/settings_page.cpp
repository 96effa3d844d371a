#include "app/frame/settings_page.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QScrollArea>
#include <QTimer>
#include <QVBoxLayout>

#include "app/frame/data_panel.h"
#include "app/frame/own_settings.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr Theme kThemes[] = {Theme::system, Theme::light, Theme::dark};
constexpr qreal kPoints[] = {0, 13, 16, 20};
constexpr int kMostWidth = 112 * kGrid;

template <class T, std::size_t n>
int placeOf(const T (&values)[n], T value) {
  const auto* at = std::find(std::begin(values), std::end(values), value);
  return at == std::end(values) ? 0 : static_cast<int>(at - std::begin(values));
}

}  // namespace

struct SettingsPage::Impl : public QObject {
  using QObject::QObject;
  Form* form = nullptr;
  QLineEdit* name = nullptr;
  QComboBox* currency = nullptr;
  MoneyEdit* hour_value = nullptr;
  TenthsEdit* hours_a_week = nullptr;
  MoneyEdit* day_cost = nullptr;
  WordRow* distance = nullptr;
  WordRow* theme = nullptr;
  WordRow* text = nullptr;
  DataPanel* data = nullptr;
};

SettingsPage::SettingsPage(Session& session, QWidget* parent) : Page(session, parent), impl_{new Impl{this}} {
  setObjectName("page.Settings");
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  auto* scroll = new QScrollArea{this};
  scroll->setWidgetResizable(true);
  auto* inside = new QWidget;
  setRank(inside, "page");
  // The width is limited in a row of its own: a column does not know how tall its wrapped text is in a part
  // of its width.
  auto* row = new QHBoxLayout{inside};
  row->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  auto* column = new QWidget{inside};
  column->setMaximumWidth(grown(kMostWidth));
  row->addWidget(column, 100);
  row->addStretch(1);
  auto* layout = new QVBoxLayout{column};
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(2 * kGrid);
  layout->addWidget(heading(tr("Settings"), inside));

  impl_->form = new Form{session, "frame.settings", tr("The shop"), inside};
  impl_->form->setColumns(3);
  impl_->name = new QLineEdit{inside};
  impl_->currency = new QComboBox{inside};
  for (const Currency& currency : currencies())
    impl_->currency->addItem(QString::fromStdString(currency.code));
  impl_->hour_value = new MoneyEdit{"hour_value", session.currency(), inside};
  impl_->hours_a_week = new TenthsEdit{"hours_a_week", tr("h"), inside};
  impl_->day_cost = new MoneyEdit{"day_cost", session.currency(), inside};
  impl_->distance = new WordRow{"unit_of_distance", {tr("miles"), tr("kilometres")}, inside};
  impl_->form->addField("name", tr("Name of the shop"), impl_->name, 2);
  impl_->form->addField("currency", tr("Currency"), impl_->currency);
  impl_->form->addField("hour_value", tr("What an hour of yours is worth"), impl_->hour_value);
  impl_->form->addField("hours_a_week", tr("Hours a week for the shop"), impl_->hours_a_week);
  impl_->form->addField("day_cost", tr("What a machine costs a day it stands"), impl_->day_cost);
  impl_->form->addField("unit_of_distance", tr("Distances in"), impl_->distance);
  impl_->form->onSave([this] { return save(); });
  connect(impl_->form, &Form::left, this, [this] {
    fill();
    impl_->form->show();
    emit wantsBack();
  });
  layout->addWidget(impl_->form);

  impl_->data = new DataPanel{session, inside};
  connect(impl_->data, &DataPanel::wantsSaid, this, &SettingsPage::wantsSaid);
  connect(impl_->data, &DataPanel::spoke, this, [this, scroll] {
    // It has to be laid out with what it now shows before it can be brought into sight.
    QTimer::singleShot(0, this, [this, scroll] { scroll->ensureWidgetVisible(impl_->data, 0, kGrid); });
  });
  layout->addWidget(impl_->data);

  auto* here = new QFrame{inside};
  setRank(here, "card");
  auto* here_layout = new QVBoxLayout{here};
  here_layout->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
  here_layout->setSpacing(kGrid);
  const auto choice = [&](const QString& label, const QStringList& words, const char* name) {
    auto* caption = new QLabel{label, here};
    setRank(caption, "small");
    auto* choices = new WordRow{name, words, here};
    choices->setAccessibleName(label);
    auto* pair = new QVBoxLayout;
    pair->setSpacing(kGrid / 4);
    pair->addWidget(caption);
    pair->addWidget(choices);
    here_layout->addLayout(pair);
    return choices;
  };
  auto* title = new QLabel{tr("On this computer"), here};
  setRank(title, "subheading");
  here_layout->addWidget(title);
  impl_->theme = choice(tr("Light or dark"), {tr("as the desktop"), tr("light"), tr("dark")}, "theme");
  impl_->text = choice(tr("Text"), {tr("usual"), tr("larger"), tr("large"), tr("largest")}, "text");
  connect(impl_->theme, &WordRow::chosen, this, [](int index) {
    OwnSettings::setTheme(kThemes[index]);
    OwnSettings::dress(*qApp);
  });
  connect(impl_->text, &WordRow::chosen, this, [](int index) {
    OwnSettings::setTextPoints(kPoints[index]);
    OwnSettings::dress(*qApp);
  });
  layout->addWidget(here);

  layout->addStretch(1);
  scroll->setWidget(inside);
  outer->addWidget(scroll);
  fill();
}

void SettingsPage::refresh(const std::vector<AnyId>& ids) {
  if (ids.empty()) fill();
}

void SettingsPage::start() {
  impl_->form->open();
}

std::vector<Page::Deed> SettingsPage::deeds() {
  DataPanel* panel = impl_->data;
  return {{tr("back up now"), {}, [panel] { panel->backUpNow(); }},
          {tr("back up to one file"), {}, [panel] { panel->chooseBackup(); }},
          {tr("export the shop to a folder"), {}, [panel] { panel->chooseExport(); }},
          {tr("import a folder into this shop"), {}, [panel] { panel->chooseImport(); }},
          {tr("import a single sheet into this shop"), {}, [panel] { panel->chooseSheet(); }}};
}

void SettingsPage::fill() {
  const std::shared_ptr<const Shop> shop = session().shop();
  const Settings& settings = shop->settings;
  impl_->name->setText(QString::fromStdString(settings.name));
  impl_->currency->setCurrentText(QString::fromStdString(settings.currency.code));
  impl_->hour_value->setValue(settings.hour_value);
  impl_->hours_a_week->setValue(settings.hours_a_week);
  impl_->day_cost->setValue(settings.day_cost);
  impl_->distance->setCurrent(settings.unit_of_distance == DistanceUnit::mi ? 0 : 1);
  impl_->theme->setCurrent(placeOf(kThemes, OwnSettings::theme()));
  impl_->text->setCurrent(placeOf(kPoints, OwnSettings::textPoints()));
}

std::optional<Problem> SettingsPage::save() {
  const Result<Currency> currency = currency_of(impl_->currency->currentText().toStdString());
  if (!currency) return currency.error();
  // The fields read amounts in the shop's present currency; with another one chosen they are read in that.
  const auto amount = [&](const MoneyEdit& edit) -> Result<std::optional<Money>> {
    if (edit.isBlank() || *currency == session().currency()) return edit.value();
    return parse_typed_amount(edit.text().toStdString(), *currency, edit.field().toStdString());
  };
  const Result<std::optional<Money>> hour_value = amount(*impl_->hour_value);
  if (!hour_value) return hour_value.error();
  const Result<std::optional<Money>> day_cost = amount(*impl_->day_cost);
  if (!day_cost) return day_cost.error();
  Settings settings = session().shop()->settings;
  settings.name = impl_->name->text().trimmed().toStdString();
  settings.currency = *currency;
  settings.hour_value = *hour_value;
  settings.hours_a_week = impl_->hours_a_week->value();
  settings.day_cost = *day_cost;
  settings.unit_of_distance = impl_->distance->current() == 0 ? DistanceUnit::mi : DistanceUnit::km;
  if (auto wrong = session().setSettings(settings)) return wrong;
  emit wantsSaid(tr("The settings are kept."), false);
  return std::nullopt;
}

}  // namespace secondpull::app
