#include "app/bench/bench_panel.h"

#include <QCompleter>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QStringListModel>

#include "app/parts/look.h"

namespace secondpull::app {

HintLine::HintLine(const QString& name, QWidget* parent) : QLabel(parent) {
  setObjectName(name);
  setWordWrap(true);
  setTextFormat(Qt::PlainText);
  setIndent(0);
  quiet({});
}

void HintLine::quiet(const QString& text) {
  setRank(this, "small");
  setText(text);
  setVisible(!text.isEmpty());
}

void HintLine::caution(const QString& text) {
  setRank(this, "caution");
  setText(text.isEmpty() ? text : tr("Care: %1").arg(text));
  setVisible(!text.isEmpty());
}

void HintLine::problem(const Problem& problem) {
  setRank(this, "problem");
  setText(QString::fromStdString(problem.sentence));
  setVisible(true);
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
  box->setFixedWidth(kLabelWidth * kGrid);
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
