#include "app/bench/alike_panel.h"

#include <QVBoxLayout>

#include "app/parts/look.h"
#include "core/shop/alike.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostAlike = 4;
constexpr qsizetype kMostParts = 4;

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

QString sameness(Alike::By by) {
  switch (by) {
    case Alike::By::model_number:
      return AlikePanel::tr("same model number");
    case Alike::By::make_and_model:
      return AlikePanel::tr("same model");
    case Alike::By::engine:
      break;
  }
  return AlikePanel::tr("same engine");
}

QString lineOf(const Session& session, const Alike& alike) {
  QStringList bits;
  for (const auto& [symptom, cause] : alike.faults)
    bits << (cause.empty() ? text(symptom) : AlikePanel::tr("%1: %2").arg(text(symptom), text(cause)));
  if (!alike.parts.empty()) {
    QStringList parts;
    for (const std::string& part : alike.parts)
      if (parts.size() < kMostParts) parts << text(part);
    bits << AlikePanel::tr("fitted %1").arg(parts.join(QStringLiteral(", ")));
  }
  if (alike.sale != nullptr) bits << AlikePanel::tr("sold for %1").arg(session.money(alike.sale->price));
  return QStringLiteral("<a href=\"%1\">#%2</a> (%3) %4")
      .arg(number(alike.machine))
      .arg(session.tagOf(alike.machine).toHtmlEscaped(), sameness(alike.by),
           bits.join(QStringLiteral("; ")).toHtmlEscaped());
}

}  // namespace

AlikePanel::AlikePanel(Session& session, QWidget* parent)
    : BenchPanel(session, parent), lines_{new QLabel(this)} {
  setObjectName(QStringLiteral("alikePanel"));
  lines_->setObjectName(QStringLiteral("alikeLines"));
  lines_->setAccessibleName(tr("Same machine before"));
  lines_->setTextFormat(Qt::RichText);
  lines_->setWordWrap(true);
  lines_->setTextInteractionFlags(Qt::LinksAccessibleByMouse | Qt::LinksAccessibleByKeyboard);
  auto* title = new QLabel(tr("Same machine before"), this);
  setRank(title, "subheading");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addWidget(title);
  column->addWidget(lines_);
  connect(lines_, &QLabel::linkActivated, this,
          [this](const QString& id) { emit wantsMachine(static_cast<MachineId>(id.toLongLong())); });
}

void AlikePanel::refresh() {
  const auto books = session().books();
  QStringList lines;
  for (const Alike& alike : machines_alike(books->shop(), books->by_machine(), machine(), kMostAlike))
    lines << lineOf(session(), alike);
  lines_->setText(lines.join(QStringLiteral("<br>")));
  setVisible(!lines.isEmpty());
}

}  // namespace secondpull::app
