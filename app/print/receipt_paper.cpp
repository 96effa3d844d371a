#include "app/print/receipt_paper.h"

#include <QCoreApplication>
#include <QPainter>

#include "app/print/page_pen.h"

namespace secondpull::app {
namespace {

constexpr double kAmount = 34;  // mm, the column of amounts
constexpr double kGap = 4;

QString say(const char* text) {
  return QCoreApplication::translate("Paper", text);
}

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

class ReceiptDrawing {
 public:
  ReceiptDrawing(const paper::Receipt& receipt, const Currency& currency, PagePen& pen)
      : receipt_{receipt}, currency_{currency}, pen_{pen} {}

  void draw() {
    head();
    things();
    sums();
    for (const paper::SoldMachine& machine : receipt_.machines)
      terms(machine);
    if (!receipt_.safety.empty()) {
      pen_.heading(say("For your safety"));
      pen_.list(receipt_.safety, {.points = 9});
    }
    names();
  }

 private:
  QString amount(Money money) const { return text(shown(money, currency_)); }

  void head() {
    const double half = pen_.width() / 2;
    pen_.row({{.text = receipt_.seller.empty() ? say("Sales receipt") : text(receipt_.seller),
               .width = half,
               .style = {.points = 17, .bold = true}},
              {.text = say("Sales receipt %1\n%2").arg(text(receipt_.number), text(shown(receipt_.date))),
               .left = half,
               .width = half,
               .style = {.points = 10.5, .align = Qt::AlignRight}}},
             2);
    pen_.rule(true);
    pen_.space(3);
    QString buyer = receipt_.buyer.empty() ? QString{} : text(receipt_.buyer);
    if (!receipt_.buyer_contact.empty()) buyer += u'\n' + text(receipt_.buyer_contact);
    if (!buyer.isEmpty())
      pen_.row({{.text = say("Sold to"), .width = 20, .style = {.faded = true}},
                {.text = buyer, .left = 20, .width = pen_.width() - 20}},
               4);
  }

  void line(const QString& what, const QString& sum, PenStyle style = {}) {
    PenStyle right = style;
    right.align = Qt::AlignRight;
    const double words = pen_.width() - kAmount - kGap;
    pen_.row({{.text = what, .width = words, .style = style},
              {.text = sum, .left = words + kGap, .width = kAmount, .style = right}},
             0.6);
  }

  void things() {
    line(say("What was sold"), say("Price"), {.points = 9, .faded = true});
    pen_.rule();
    pen_.space(1);
    for (const paper::ReceiptLine& each : receipt_.lines) {
      pen_.keepTogether(12);
      line(text(each.what), amount(each.price), {.points = 11, .bold = true});
      if (!each.details.empty())
        pen_.text(text(each.details), {.points = 9, .faded = true}, 0, pen_.width() - kAmount - kGap);
      pen_.space(1.5);
    }
    pen_.rule();
    pen_.space(1);
  }

  void sums() {
    pen_.keepTogether(20);
    if (!receipt_.taxes.empty()) line(say("Together"), amount(receipt_.goods));
    for (const paper::NamedAmount& tax : receipt_.taxes)
      line(text(tax.name), amount(tax.amount));
    line(say("Total"), amount(receipt_.total), {.points = 12.5, .bold = true});
    for (const paper::NamedAmount& deposit : receipt_.deposits)
      line(text(deposit.name), amount(-deposit.amount));
    const QString by = receipt_.payment.empty() ? QString{} : QStringLiteral(", ") + text(receipt_.payment);
    if (receipt_.balance < Money{})
      line(say("To be given back to the buyer"), amount(-receipt_.balance), {.bold = true});
    else
      line(say("Paid on %1%2").arg(text(shown(receipt_.date)), by), amount(receipt_.balance));
    if (receipt_.delivered) {
      pen_.space(1);
      pen_.text(say("Delivery is part of the price."), {.points = 9});
    }
  }

  void terms(const paper::SoldMachine& machine) {
    pen_.heading(text(machine.name));
    if (!machine.terms.empty()) pen_.text(text(machine.terms));
    pen_.text(text(machine.warranty));
    if (machine.wrong.empty()) {
      pen_.text(say("No fault of it was known to the seller."));
    } else {
      pen_.text(say("What was known to be wrong or worn, and was told to the buyer:"));
      pen_.space(0.5);
      pen_.list(machine.wrong, {}, 2);
    }
    if (!machine.recall.empty()) pen_.text(text(machine.recall));
  }

  void names() {
    constexpr double kRoom = 26;
    constexpr double kLine = 16;
    pen_.keepTogether(kRoom);
    pen_.space(kLine);
    const double half = (pen_.width() - 2 * kGap) / 2;
    const auto by = [&](const char* who, const std::string& name) {
      return name.empty() ? say(who) : QStringLiteral("%1: %2").arg(say(who), text(name));
    };
    if (QPainter* painter = pen_.painter()) {
      painter->setPen(QPen{Qt::black, pen_.dots(0.2)});
      for (const double left : {0.0, half + 2 * kGap})
        painter->drawLine(QPointF{pen_.dots(left), pen_.dots(pen_.y())},
                          QPointF{pen_.dots(left + half), pen_.dots(pen_.y())});
    }
    pen_.space(1);
    pen_.row({{.text = by("Seller", receipt_.seller), .width = half, .style = {.points = 9}},
              {.text = by("Buyer", receipt_.buyer),
               .left = half + 2 * kGap,
               .width = half,
               .style = {.points = 9}}});
  }

  const paper::Receipt& receipt_;
  const Currency& currency_;
  PagePen& pen_;
};

}  // namespace

Sheet receiptSheet(const paper::Receipt& receipt, const Currency& currency) {
  const QString title = say("Sales receipt %1").arg(text(receipt.number));
  return {
      .title = title,
      .file_name = QStringLiteral("receipt-%1").arg(text(receipt.number)),
      .layout = paperPage(),
      .draw = [receipt, currency, title](QPagedPaintDevice& device) {
        if (receipt.lines.empty()) return 0;
        return drawPages(device, title, [&](PagePen& pen) { ReceiptDrawing{receipt, currency, pen}.draw(); });
      }};
}

std::optional<Problem> writeReceiptPdf(const paper::Receipt& receipt, const Currency& currency,
                                       const QString& path) {
  return writeSheetPdf(receiptSheet(receipt, currency), path);
}

}  // namespace secondpull::app
