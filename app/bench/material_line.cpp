#include "app/bench/material_line.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QVBoxLayout>

#include "app/bench/quick_lines.h"
#include "app/bench/suggestions.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {

MaterialLine::MaterialLine(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      day_{std::move(day)},
      line_{new QLineEdit(this)},
      hint_{new HintLine(QStringLiteral("material"), this)} {
  line_->setObjectName(QStringLiteral("materialLine"));
  line_->setAccessibleName(tr("Material used and its cost"));
  line_->setPlaceholderText(tr("degreaser 3.50"));
  QHBoxLayout* row = typedRow(tr("Material"), QStringLiteral("F8"), line_, this);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addLayout(row);
  column->addWidget(hint_);
  connect(line_, &QLineEdit::textChanged, this, &MaterialLine::explain);
  connect(line_, &QLineEdit::returnPressed, this, &MaterialLine::save);
}

void MaterialLine::start() {
  line_->setFocus();
  line_->selectAll();
}

void MaterialLine::turned() {
  line_->clear();
  hint_->clearHint();
}

void MaterialLine::refresh() {
  completeFrom(line_, materialsBefore(*session().shop()));
}

void MaterialLine::explain() {
  hint_->careFor(line_->text());
  if (line_->text().trimmed().isEmpty()) return hint_->clearHint();
  const auto read = readMaterial(line_->text(), session().currency());
  hint_->quiet(read ? tr("Enter puts %1 of %2 on this machine.").arg(session().money(read->cost), read->what)
                    : tr("What it was, then what it cost: degreaser 3.50."));
}

void MaterialLine::save() {
  const auto read = readMaterial(line_->text(), session().currency());
  if (!read) return hint_->problem(read.error());
  const auto shop = session().shop();
  if (const auto failed =
          session().perform(add_material(*shop, machine(), day_(), read->what.toStdString(), read->cost)))
    return hint_->problem(*failed);
  turned();
}

}  // namespace secondpull::app
