#include "app/bench/bench_panel.h"

#include <QCompleter>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QStringListModel>
#include <QVBoxLayout>

#include "app/bench/cautions.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {

HintLine::HintLine(const QString& name, QWidget* parent)
    : QWidget(parent), says_{new QLabel(this)}, care_{new QLabel(this)} {
  says_->setObjectName(name + QStringLiteral("Hint"));
  care_->setObjectName(name + QStringLiteral("Care"));
  says_->setTextFormat(Qt::PlainText);
  care_->setTextFormat(Qt::RichText);
  setRank(care_, "caution");
  auto* column = new QVBoxLayout(this);
  // Under the field, past its label and key.
  column->setContentsMargins(grown(kLabelWidth * kGrid) + kGrid, 0, 0, 0);
  column->setSpacing(2);
  for (QLabel* label : {says_, care_}) {
    label->setWordWrap(true);
    column->addWidget(label);
  }
  care_->hide();
  quiet({});
}

void HintLine::quiet(const QString& text) {
  setRank(says_, "small");
  says_->setText(text);
  showWhatThereIs();
}

void HintLine::problem(const Problem& problem) {
  setRank(says_, "problem");
  says_->setText(QString::fromStdString(problem.sentence));
  showWhatThereIs();
}

void HintLine::careFor(const QString& words) {
  const QString care = cautionLine(words);
  care_->setText(care.isEmpty() ? QString{} : tr("<b>Care:</b> %1").arg(care.toHtmlEscaped()));
  showWhatThereIs();
}

void HintLine::showWhatThereIs() {
  const bool says = !says_->text().isEmpty();
  const bool cares = !care_->text().isEmpty();
  says_->setVisible(says);
  care_->setVisible(cares);
  setVisible(says || cares);
}

QHBoxLayout* typedRow(const QString& label, const QString& key, QWidget* field, QWidget* parent) {
  auto* row = new QHBoxLayout;
  row->setSpacing(kGrid);
  auto* name = new QLabel(label, parent);
  name->setBuddy(field);
  auto* hint = new QLabel(key, parent);
  setRank(hint, "small");
  auto* both = new QHBoxLayout;
  both->setSpacing(kGrid / 2);
  both->addWidget(name);
  both->addStretch(1);
  both->addWidget(hint);
  auto* box = new QWidget(parent);
  box->setLayout(both);
  both->setContentsMargins(0, 0, kGrid / 2, 0);
  box->setFixedWidth(grown(kLabelWidth * kGrid));
  row->addWidget(box);
  row->addWidget(field, 1);
  return row;
}

void completeFrom(QLineEdit* field, const QStringList& texts) {
  if (QCompleter* before = field->completer()) {
    if (auto* model = qobject_cast<QStringListModel*>(before->model())) {
      if (model->stringList() != texts) model->setStringList(texts);
      return;
    }
  }
  auto* completer = new QCompleter(texts, field);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  field->setCompleter(completer);
}

}  // namespace secondpull::app
