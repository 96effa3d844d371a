#include "app/shelf/part_out_panel.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/bench/cautions.h"
#include "app/bench/form_fields.h"
#include "app/bench/guesses.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/shelf/part_rows.h"
#include "app/shelf/parting.h"
#include "core/shop/shelf.h"

namespace secondpull::app {
namespace {

constexpr int kSplitWidth = 44 * kGrid;

}  // namespace

struct PartOutPanel::Fields {
  RecordPicker* donor;
  DateEdit* date;
  MoneyEdit* hulk_value;
  QCheckBox* hulk_here;
  MoneyEdit* scrap;
  DateEdit* hulk_gone;
  PartRows* rows;

  Money scrapMoney() const { return hulk_here->isChecked() ? Money{} : scrap->value().value_or(Money{}); }
};

PartOutPanel::PartOutPanel(Session& session, QWidget* parent)
    : ShelfPanel(session, parent), slot_{new QVBoxLayout}, split_{new QLabel(this)} {
  split_->setObjectName(QStringLiteral("partingSplit"));
  split_->setTextFormat(Qt::RichText);
  split_->setWordWrap(true);
  split_->setAlignment(Qt::AlignTop | Qt::AlignLeft);

  auto* title = new QLabel(tr("How its cost splits"), this);
  setRank(title, "subheading");
  auto* care = new QLabel(
      tr("<b>Care:</b> %1 %2 %3")
          .arg(caution(Danger::blade), caution(Danger::fuel), tr("The maker's manual comes first.")),
      this);
  setRank(care, "caution");
  care->setWordWrap(true);
  auto* side = new QWidget(this);
  side->setFixedWidth(kSplitWidth);
  auto* side_column = new QVBoxLayout(side);
  side_column->setContentsMargins(0, 2 * kGrid, 0, 0);
  side_column->setSpacing(kGrid);
  side_column->addWidget(title);
  side_column->addWidget(split_);
  side_column->addSpacing(kGrid);
  side_column->addWidget(care);
  side_column->addStretch(1);

  auto* page = new QWidget(this);
  setRank(page, "page");
  slot_->setContentsMargins(0, 0, 0, 0);
  auto* form_column = new QVBoxLayout(page);
  form_column->setContentsMargins(0, 0, 0, 0);
  form_column->addLayout(slot_);
  form_column->addStretch(1);
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setWidget(page);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4 * kGrid);
  row->addWidget(scroll, 1);
  row->addWidget(side);
}

void PartOutPanel::makeForm() {
  Session& shop = session();
  const QString name = QStringLiteral("shelf.part-out");
  form_ = new Form(shop, name, tr("Part out a machine"), this);
  form_->setColumns(3);
  form_->setSaveText(tr("Part it out"));
  slot_->addWidget(form_);
  const FormFields fields{*form_, QStringLiteral("partOut.")};
  auto made = std::make_shared<Fields>();
  made->donor =
      fields.add("donor", tr("Which machine"),
                 new RecordPicker(shop, RecordPicker::Of::machine_here, QStringLiteral("donor"), form_));
  made->date = fields.add("date", tr("Day"), new DateEdit(QStringLiteral("date"), shop.today(), form_));
  made->date->setValue(shop.today());
  made->date->setRequired(true);
  made->hulk_value = fields.add("hulk_value", tr("The hulk is worth"),
                                new MoneyEdit(QStringLiteral("hulk_value"), shop.currency(), form_));
  made->hulk_here = new QCheckBox(tr("The hulk stays here for now"), form_);
  fields.add("hulk_here", tr("What is left of it"), made->hulk_here);
  made->scrap = fields.add("scrap", tr("Scrap money for the hulk"),
                           new MoneyEdit(QStringLiteral("scrap"), shop.currency(), form_));
  made->hulk_gone = fields.add("hulk_gone", tr("Hulk gone on, if another day"),
                               new DateEdit(QStringLiteral("hulk_gone"), shop.today(), form_));
  made->rows = new PartRows(shop, *form_, name,
                            {tr("Worth, all of the line"),
                             [&shop](PartId part) -> std::optional<Money> {
                               const auto guess = usedPartGuess(*shop.shop(), part);
                               return guess ? std::optional{guess->amount} : std::nullopt;
                             }},
                            false);
  fields_ = made;

  connect(made->rows, &PartRows::edited, this, &PartOutPanel::showSplit);
  connect(made->donor, &QLineEdit::textChanged, this, &PartOutPanel::showSplit);
  connect(made->hulk_value, &QLineEdit::textChanged, this, &PartOutPanel::showSplit);
  connect(made->scrap, &QLineEdit::textChanged, this, &PartOutPanel::showSplit);
  connect(made->hulk_here, &QCheckBox::toggled, this, [this, made](bool here) {
    made->scrap->setEnabled(!here);
    made->hulk_gone->setEnabled(!here);
    showSplit();
  });
  made->hulk_here->setChecked(true);

  form_->onSave([this, made]() -> std::optional<Problem> {
    const auto donor = made->donor->picked<MachineId>();
    if (!donor)
      return Problem{tr("Say which machine is parted out.").toStdString(), "donor",
                     made->donor->text().toStdString()};
    if (const auto wrong = made->rows->problem()) return wrong;
    std::vector<HarvestLine> lines;
    for (const PartRows::Row& row : made->rows->filled())
      lines.push_back({row.part, row.quantity, row.amount});
    const auto now = session().shop();
    const bool here = made->hulk_here->isChecked();
    return session().perform(part_out(*now, *donor, made->date->value().value_or(session().today()), lines,
                                      made->hulk_value->value(), made->scrapMoney(),
                                      here ? std::nullopt : made->hulk_gone->value(), here));
  });
  const auto done = [this, form = form_.data()] {
    form->hide();
    form->deleteLater();
    form_.clear();
    makeForm();
    showSplit();
  };
  connect(form_, &Form::saved, this, done);
  connect(form_, &Form::left, this, [this] { split_->clear(); });
}

void PartOutPanel::start() {
  if (!form_) makeForm();
  form_->open();
  showSplit();
}

void PartOutPanel::setDonor(MachineId donor) {
  if (!form_) makeForm();
  fields_->donor->setPicked(number(donor));
}

void PartOutPanel::refresh() {
  if (!form_) return;
  fields_->donor->reload();
  fields_->rows->reload();
  showSplit();
}

void PartOutPanel::showSplit() {
  if (!form_) return;
  const auto donor = fields_->donor->picked<MachineId>();
  const std::vector<PartRows::Row> rows = fields_->rows->filled();
  std::vector<Money> values;
  for (const PartRows::Row& row : rows)
    values.push_back(row.amount);
  const auto parting = donor ? partingSplit(*session().books(), *donor, values, fields_->hulk_value->value(),
                                            fields_->scrapMoney())
                             : std::nullopt;
  if (!parting) {
    split_->setText(
        tr("Say which machine it is: what it has cost is then split over what is taken off it, by "
           "what each is worth, and the hulk."));
    return;
  }
  const auto line = [](const QString& what, const QString& amount, bool bold) {
    const QString cell = bold ? QStringLiteral("<b>%1</b>") : QStringLiteral("%1");
    return QStringLiteral("<tr><td style='padding-right:24px'>%1</td><td align='right'>%2</td></tr>")
        .arg(cell.arg(what.toHtmlEscaped()), cell.arg(amount));
  };
  QString table;
  const auto shop = session().shop();
  for (std::size_t at = 0; at < rows.size(); ++at) {
    const Part* part = rows[at].part.known ? shop->find(*rows[at].part.known) : nullptr;
    QString name = QString::fromStdString(part != nullptr ? part->name : rows[at].part.new_name);
    if (rows[at].quantity != 1) name = QStringLiteral("%1 × %2").arg(rows[at].quantity).arg(name);
    table += line(name, session().money(parting->lines[at]), false);
  }
  table += line(tr("the hulk"), session().money(parting->hulk), false);
  table += line(tr("what #%1 has cost").arg(session().tagOf(*donor)), session().money(parting->basis), true);
  split_->setText(QStringLiteral("<table cellpadding='3'>%1</table>").arg(table));
}

}  // namespace secondpull::app
