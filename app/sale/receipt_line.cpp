#include "app/sale/receipt_line.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "app/print/paper_desk.h"
#include "app/print/receipt_paper.h"
#include "core/learning/knowledge_base.h"
#include "core/paper/receipt.h"

namespace secondpull::app {
namespace {

paper::Receipt receiptOf(const Session& session, SaleId sale) {
  const auto books = session.books();
  return paper::receipt_of(books->shop(), books->by_machine(), *session.knowledge(),
                           paper::deal_of(books->shop(), sale));
}

}  // namespace

ReceiptLine::ReceiptLine(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  auto* title = new QLabel{tr("Receipt")};
  setRank(title, "subheading");
  box->addWidget(title);
  says_ = new QLabel;
  says_->setObjectName(QStringLiteral("receiptSays"));
  says_->setWordWrap(true);
  box->addWidget(says_);
  auto* line = new QWidget;
  auto* flow = new Flow{line, kGrid};
  const auto button = [&](const char* name, const QString& text, void (ReceiptLine::*run)()) {
    auto* made = new QPushButton{text};
    made->setObjectName(QString::fromLatin1(name));
    connect(made, &QPushButton::clicked, this, run);
    flow->addWidget(made);
  };
  button("receiptPrint", tr("&Print the receipt..."), &ReceiptLine::print);
  button("receiptPdf", tr("&Write it as PDF..."), &ReceiptLine::pdf);
  box->addWidget(line);
}

void ReceiptLine::setMachine(std::optional<MachineId> machine) {
  sale_.reset();
  const auto books = session_.books();
  if (machine)
    if (const ByMachine::Lines& lines = books->by_machine().of(*machine);
        stage_of(lines) == Stage::sold && !lines.sales.empty())
      sale_ = lines.sales.back()->id;
  setVisible(sale_.has_value());
  if (!sale_) return;
  const paper::Receipt receipt = receiptOf(session_, *sale_);
  const auto brief = [this](Money amount) {
    return QString::fromStdString(shown_short(amount, session_.currency()));
  };
  const QString day = QString::fromStdString(shown_short(receipt.date, session_.today()));
  QString says = receipt.buyer.empty()
                     ? tr("Sold on %1 for %2").arg(day, brief(receipt.total))
                     : tr("Sold to %1 on %2 for %3")
                           .arg(QString::fromStdString(receipt.buyer), day, brief(receipt.total));
  if (!receipt.taxes.empty()) says += tr(", tax included");
  if (receipt.lines.size() > 1) says += tr(", %1 things together").arg(receipt.lines.size());
  says += QLatin1Char('.');
  if (receipt.balance != receipt.total)
    says += QLatin1Char(' ') + tr("%1 were left as a deposit, %2 paid that day.")
                                   .arg(brief(receipt.total - receipt.balance), brief(receipt.balance));
  says_->setText(says);
}

void ReceiptLine::print() {
  if (!sale_) return;
  const PaperSaid said = printPaper(receiptSheet(receiptOf(session_, *sale_), session_.currency()), this);
  if (!said.sentence.isEmpty()) emit wantsSaid(said.sentence, said.problem);
}

void ReceiptLine::pdf() {
  if (!sale_) return;
  const PaperSaid said = savePaper(receiptSheet(receiptOf(session_, *sale_), session_.currency()), this);
  if (!said.sentence.isEmpty()) emit wantsSaid(said.sentence, said.problem);
}

void ReceiptLine::writePdfTo(const QString& path) {
  if (!sale_) return;
  const PaperSaid said = savePaperTo(receiptSheet(receiptOf(session_, *sale_), session_.currency()), path);
  if (!said.sentence.isEmpty()) emit wantsSaid(said.sentence, said.problem);
}

}  // namespace secondpull::app
