#include "app/books/year_chooser.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

#include "app/parts/look.h"

namespace secondpull::app {

YearChooser::YearChooser(int year, QWidget* parent)
    : QWidget(parent), year_{year}, first_{year}, last_{year} {
  setObjectName(QStringLiteral("booksYear"));
  auto* line = new QHBoxLayout{this};
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(kGrid / 2);
  const auto button = [&](const char* name, const QString& text, const QString& what, int years) {
    auto* made = new QToolButton{this};
    made->setObjectName(QString::fromLatin1(name));
    made->setText(text);
    made->setAccessibleName(what);
    made->setToolTip(what);
    setRank(made, "word");
    connect(made, &QToolButton::clicked, this, [this, years] { step(years); });
    return made;
  };
  earlier_ = button("yearEarlier", QStringLiteral("‹"), tr("The year before   Ctrl+Page Up"), -1);
  later_ = button("yearLater", QStringLiteral("›"), tr("The next year   Ctrl+Page Down"), 1);
  label_ = new QLabel{this};
  label_->setObjectName(QStringLiteral("yearShown"));
  setRank(label_, "subheading");
  line->addWidget(earlier_);
  line->addWidget(label_);
  line->addWidget(later_);
  show();
}

void YearChooser::setYear(int year) {
  year_ = std::clamp(year, first_, last_);
  show();
}

void YearChooser::setLimits(int first, int last) {
  first_ = first;
  last_ = last;
  setYear(year_);
}

void YearChooser::step(int years) {
  const int before = year_;
  setYear(year_ + years);
  if (year_ != before) emit chosen(year_);
}

void YearChooser::show() {
  label_->setText(QString::number(year_));
  setAccessibleName(tr("Year %1").arg(year_));
  earlier_->setEnabled(year_ > first_);
  later_->setEnabled(year_ < last_);
}

}  // namespace secondpull::app
