#include "app/print/bench_sheet_paper.h"

#include <algorithm>

#include <QCoreApplication>
#include <QPainter>

#include "app/bench/chances_view.h"
#include "app/print/page_pen.h"
#include "app/print/qr_code.h"

namespace secondpull::app {
namespace {

constexpr double kCode = 24;    // mm
constexpr double kNumber = 38;  // mm, the column of the large number
constexpr double kIndent = 8;   // mm, of a step's words
constexpr double kChance = 18;  // mm
constexpr double kBar = 45;     // mm
constexpr qreal kBody = 11;     // points: read from a step away
constexpr qreal kSmall = 9.5;
constexpr double kWriteGap = 9;  // mm between lines to write on
constexpr int kLeastLines = 4;

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

class SheetDrawing {
 public:
  SheetDrawing(const paper::BenchSheet& sheet, PagePen& pen) : sheet_{sheet}, pen_{pen} {}

  void draw() {
    head();
    causes();
    if (!sheet_.seen.empty()) {
      pen_.heading(say("Found so far"));
      pen_.list(sheet_.seen, {.points = kBody});
    }
    if (!sheet_.steps.empty()) pen_.heading(say("Next steps"));
    int number = 0;
    for (const paper::SheetStep& each : sheet_.steps)
      step(each, ++number);
    if (!sheet_.stop_if.empty()) {
      pen_.heading(say("When to stop"));
      pen_.list(sheet_.stop_if, {.points = kBody});
    }
    room();
  }

 private:
  void head() {
    const auto code = qrCode(sheet_.tag.code);
    const double side = code ? qrSide(*code, kCode) : 0;
    const bool has_code = code && side <= 2 * kCode;
    if (QPainter* painter = pen_.painter(); painter != nullptr && has_code)
      drawQr(*painter, {pen_.dots(pen_.width() - side), 0, pen_.dots(side), pen_.dots(side)}, *code);
    const double words = pen_.width() - kNumber - (has_code ? side + 3 : 0);
    const qreal points = sheet_.tag.number.size() <= 4 ? 40 : sheet_.tag.number.size() <= 7 ? 24 : 14;
    const QString symptom = sheet_.tag.symptom.empty() ? say("not tried yet") : text(sheet_.tag.symptom);
    const std::vector<PenCell> name{
        {.text = text(sheet_.tag.number), .width = kNumber - 2, .style = {.points = points, .bold = true}},
        {.text = text(sheet_.tag.machine),
         .left = kNumber,
         .width = words,
         .style = {.points = 16, .bold = true}}};
    const double top = pen_.y();
    const double number_height = pen_.heightOf({name[0]});
    pen_.row({name[1]}, 1);
    pen_.text(symptom, {.points = 13}, kNumber, words);
    pen_.text(text(sheet_.facts), {.points = kSmall, .faded = true}, kNumber, words);
    const QString came =
        sheet_.came_with.empty()
            ? say("Here since %1").arg(text(shown(sheet_.tag.came)))
            : say("Here since %1, came with: %2").arg(text(shown(sheet_.tag.came)), text(sheet_.came_with));
    pen_.text(came, {.points = kSmall, .faded = true}, kNumber, words);
    if (QPainter* painter = pen_.painter(); painter != nullptr && pen_.y() > top) numberAt(name[0], top);
    const double bottom = top + std::max(number_height, has_code ? side : 0.0);
    if (pen_.y() < bottom) pen_.space(bottom - pen_.y());
    pen_.space(2);
    pen_.rule(true);
  }
  void numberAt(const PenCell& number, double top) {
    QFont font = paperFont(number.style.points);
    font.setWeight(QFont::Black);
    pen_.painter()->setFont(font);
    pen_.painter()->setPen(Qt::black);
    pen_.painter()->drawText(QRectF{0, pen_.dots(top), pen_.dots(number.width), pen_.dots(3 * kCode)},
                             Qt::AlignLeft | Qt::AlignTop | Qt::TextWrapAnywhere, number.text);
  }

  void causes() {
    if (sheet_.causes.empty()) return;
    pen_.heading(say("What it may be"));
    for (const auto& [name, chance] : sheet_.causes)
      cause(text(name), chance);
    if (sheet_.other_causes > 0) cause(say("all others"), sheet_.other_causes);
  }
  void cause(const QString& name, double chance) {
    const double words = pen_.width() - kBar - kChance - 4;
    pen_.row({{.text = name, .width = words, .style = {.points = kBody}},
              {.left = words + 2, .width = kBar, .what = PenCell::What::bar, .share = std::min(chance, 1.0)},
              {.text = percent(chance),
               .left = words + kBar + 4,
               .width = kChance,
               .style = {.points = kBody, .align = Qt::AlignRight}}},
             0.4);
  }

  void step(const paper::SheetStep& step, int number) {
    constexpr double kHead = 26;  // mm: its name is never the last of a page
    constexpr double kTakes = 52;
    if (number > 1) pen_.space(3);
    pen_.keepTogether(kHead);
    if (!step.when.empty()) pen_.text(text(step.when), {.points = kSmall, .faded = true}, kIndent);
    pen_.row({{.text = QString::number(number), .width = kIndent, .style = {.points = 13, .bold = true}},
              {.text = text(step.title),
               .left = kIndent,
               .width = pen_.width() - kIndent - kTakes,
               .style = {.points = 13, .bold = true}},
              {.text = text(step.takes),
               .left = pen_.width() - kTakes,
               .width = kTakes,
               .style = {.points = kBody, .align = Qt::AlignRight}}},
             0.5);
    pen_.text(text(step.says), {.points = kBody}, kIndent);
    pen_.text(text(step.why), {.points = kSmall, .faded = true}, kIndent);
    for (const std::string& caution : step.cautions) {
      pen_.space(0.6);
      pen_.row({{.text = say("Care"), .left = kIndent, .width = 12, .style = {.points = 10.5, .bold = true}},
                {.text = text(caution),
                 .left = kIndent + 12,
                 .width = pen_.width() - kIndent - 12,
                 .style = {.points = 10.5}}},
               0.4);
    }
    readings(step);
    for (const auto& [outcome, leads] : step.outcomes) {
      const double half = (pen_.width() - kIndent - 7) / 2;
      pen_.space(0.4);
      pen_.row({{.left = kIndent, .width = 4, .what = PenCell::What::box},
                {.text = text(outcome), .left = kIndent + 7, .width = half - 2, .style = {.points = kBody}},
                {.text = text(leads),
                 .left = kIndent + 7 + half,
                 .width = half,
                 .style = {.points = kSmall, .faded = true}}},
               0.8);
    }
  }

  void readings(const paper::SheetStep& step) {
    if (step.readings.empty()) return;
    constexpr double kRead = 28;
    const double words = (pen_.width() - kIndent - kRead) / 2;
    pen_.space(1);
    for (const paper::ReadingLine& each : step.readings)
      pen_.row({{.text = text(each.name), .left = kIndent, .width = words - 2, .style = {.points = kSmall}},
                {.text = say("published: %1").arg(text(each.limits)),
                 .left = kIndent + words,
                 .width = words - 2,
                 .style = {.points = kSmall}},
                {.left = pen_.width() - kRead, .width = kRead, .what = PenCell::What::line}},
               1);
  }

  /// A table to write in, down to the end of the page.
  void room() {
    const bool blank = sheet_.steps.empty();
    pen_.heading(blank ? say("What was done") : say("Notes"));
    if (blank) {
      const double day = 24;
      const double minutes = 18;
      const double half = (pen_.width() - day - minutes) / 2;
      const PenStyle small{.points = kSmall, .faded = true};
      constexpr double kPad = 1.5;
      constexpr double kHeadRow = 8;  // mm
      pen_.keepTogether(kHeadRow + kLeastLines * kWriteGap);
      const double top = pen_.y();
      pen_.row(
          {{.text = say("Day"), .width = day, .style = small},
           {.text = say("What I did"), .left = day + kPad, .width = half, .style = small},
           {.text = say("What came of it"), .left = day + half + kPad, .width = half, .style = small},
           {.text = say("min"), .left = pen_.width() - minutes + kPad, .width = minutes, .style = small}},
          0.5);
      pen_.rule();
      pen_.linesToWriteOn(kLeastLines, kWriteGap);
      pen_.columns({day, day + half, pen_.width() - minutes}, top);
      return;
    }
    pen_.linesToWriteOn(kLeastLines, kWriteGap);
  }

  const paper::BenchSheet& sheet_;
  PagePen& pen_;
};

}  // namespace

Sheet benchSheet(const paper::BenchSheet& sheet) {
  const QString title = say("Bench sheet %1").arg(text(sheet.tag.number));
  const QString foot = say("%1, %2; the maker's manual comes first").arg(title, text(shown(sheet.made)));
  return {.title = title,
          .file_name = QStringLiteral("bench-sheet-%1").arg(text(sheet.tag.number).mid(1)),
          .layout = paperPage(),
          .draw = [sheet, foot](QPagedPaintDevice& device) {
            return drawPages(device, foot, [&](PagePen& pen) { SheetDrawing{sheet, pen}.draw(); });
          }};
}

std::optional<Problem> writeBenchSheetPdf(const paper::BenchSheet& sheet, const QString& path) {
  return writeSheetPdf(benchSheet(sheet), path);
}

}  // namespace secondpull::app
