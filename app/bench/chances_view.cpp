#include "app/bench/chances_view.h"

#include <algorithm>

#include <QPainter>

#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr std::size_t kMostLines = 6;
constexpr double kUnlikely = 0.02;  // such causes are summed up
constexpr int kBarWidth = 9 * kGrid;
constexpr int kBarHeight = kGrid;

}  // namespace

QString percent(double chance) {
  constexpr double kLeast = 0.01;
  if (chance > 0 && chance < kLeast) return ChancesView::tr("under 1 %");
  if (chance < 1 && chance > 1 - kLeast) return ChancesView::tr("over 99 %");
  return QStringLiteral("%1 %").arg(qRound(100 * chance));
}

ChancesView::ChancesView(QWidget* parent) : QWidget(parent) {
  setAccessibleName(tr("What it may be"));
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void ChancesView::setLines(const std::vector<Line>& lines) {
  std::vector<Line> shown;
  Line rest;
  int count = 0;
  for (const Line& line : lines) {
    const bool room =
        shown.size() + 1 < kMostLines || (shown.size() < kMostLines && lines.size() <= kMostLines);
    if (line.chance >= kUnlikely && room && count == 0) {
      shown.push_back(line);
    } else if (line.chance > 0) {
      rest.chance += line.chance;
      rest.name = line.name;
      rest.whose = count == 0 ? line.whose : QString{};
      ++count;
    }
  }
  if (count > 1) rest.name = tr("%1 others").arg(count);
  if (count > 0) shown.push_back(rest);
  if (shown == lines_) return;
  lines_ = std::move(shown);
  QStringList words;
  for (const Line& line : lines_)
    words << (line.whose.isEmpty() ? tr("%1: %2").arg(line.name, percent(line.chance))
                                   : tr("%1: %2 (%3)").arg(line.name, percent(line.chance), line.whose));
  setAccessibleDescription(words.join(QStringLiteral("; ")));
  setToolTip(words.join(QChar::LineFeed));
  updateGeometry();
  update();
}

int ChancesView::lineHeight() const {
  return fontMetrics().height() + kGrid / 2;
}

QSize ChancesView::sizeHint() const {
  return {grown(34 * kGrid), lineHeight() * static_cast<int>(lines_.size())};
}

QSize ChancesView::minimumSizeHint() const {
  return {grown(20 * kGrid), sizeHint().height()};
}

void ChancesView::paintEvent(QPaintEvent*) {
  const Look& now = look();
  QPainter painter{this};
  painter.setRenderHint(QPainter::Antialiasing);
  const int figure_width = fontMetrics().horizontalAdvance(tr("under 1 %")) + kGrid;
  const int bar_width = grown(kBarWidth);
  const int name_width = width() - figure_width - bar_width - kGrid;
  int top = 0;
  for (const Line& line : lines_) {
    const QRect name{0, top, name_width, lineHeight()};
    painter.setPen(now.ink);
    painter.drawText(name, Qt::AlignVCenter,
                     fontMetrics().elidedText(line.name, Qt::ElideRight, name_width - kGrid));
    const QRectF track(name_width, top + (lineHeight() - kBarHeight) / 2.0, bar_width, kBarHeight);
    painter.setPen(Qt::NoPen);
    painter.setBrush(now.line);
    painter.drawRoundedRect(track, 2, 2);
    painter.setBrush(now.accent);
    painter.drawRoundedRect(
        QRectF{track.left(), track.top(), std::max(2.0, track.width() * line.chance), track.height()}, 2, 2);
    painter.setPen(now.ink);
    painter.drawText(QRect{width() - figure_width, top, figure_width, lineHeight()},
                     Qt::AlignVCenter | Qt::AlignRight, percent(line.chance));
    top += lineHeight();
  }
}

}  // namespace secondpull::app
