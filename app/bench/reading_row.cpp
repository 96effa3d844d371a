#include "app/bench/reading_row.h"

#include <algorithm>

#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>

#include "app/bench/step_words.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kReadingWidth = 13 * kGrid;

}  // namespace

ReadingRow::ReadingRow(QWidget* parent)
    : QWidget(parent), reading_{new QLineEdit(this)}, of_{new QComboBox(this)}, limits_{new QLabel(this)} {
  reading_->setObjectName(QStringLiteral("stepReading"));
  reading_->setAccessibleName(tr("Reading"));
  reading_->setFixedWidth(grown(kReadingWidth));
  of_->setObjectName(QStringLiteral("stepReadingOf"));
  of_->setAccessibleName(tr("What is read"));
  limits_->setObjectName(QStringLiteral("stepLimits"));
  limits_->setWordWrap(true);
  limits_->setTextFormat(Qt::PlainText);
  setRank(limits_, "small");
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(kGrid);
  row->addWidget(reading_);
  row->addWidget(of_);
  row->addWidget(limits_, 1);
  connect(reading_, &QLineEdit::returnPressed, this, &ReadingRow::entered);
  connect(reading_, &QLineEdit::textEdited, this, &ReadingRow::showLimits);
  connect(of_, &QComboBox::activated, this, &ReadingRow::showLimits);
}

void ReadingRow::showFor(const learning::Test* test, MachineKind kind, const learning::KnowledgeBase& base) {
  const QVariant chosen = of_->currentData();
  of_->clear();
  measurements_.clear();
  for (const learning::Measurement& each : base.measurements) {
    const bool is_read = test != nullptr && learning::fits(each.kinds, kind) &&
                         std::find(each.tests.begin(), each.tests.end(), test->id) != each.tests.end();
    if (!is_read) continue;
    measurements_.push_back(each);
    of_->addItem(QString::fromStdString(each.name), QString::fromStdString(each.id));
  }
  if (const int again = of_->findData(chosen); again >= 0) of_->setCurrentIndex(again);
  setVisible(!measurements_.empty());
  showLimits();
}

void ReadingRow::showLimits() {
  const int index = of_->currentIndex();
  if (index < 0) return limits_->clear();
  const learning::Measurement& measurement = measurements_[static_cast<std::size_t>(index)];
  reading_->setPlaceholderText(QString::fromStdString(measurement.unit));
  limits_->setText(limitWords(measurement, reading_->text()));
}

void ReadingRow::clear() {
  reading_->clear();
}

void ReadingRow::writeTo(NewFinding& finding) const {
  const QString typed = reading_->text().trimmed();
  const int index = of_->currentIndex();
  if (typed.isEmpty() || index < 0) return;
  const learning::Measurement& measurement = measurements_[static_cast<std::size_t>(index)];
  finding.reading = typed.toStdString();
  finding.unit = measurement.unit;
  finding.note = measurement.name;
}

}  // namespace secondpull::app
