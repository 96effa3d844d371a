#include "app/yard/machine_strip.h"

#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/parts/photo_strip.h"
#include "app/parts/tag_badge.h"
#include "app/print/machine_papers.h"
#include "core/shop/intake.h"
#include "core/shop/selling.h"
#include "core/shop/stage.h"

namespace secondpull::app {
namespace {

constexpr int kNoteLines = 4;

/// A text of a record, typed in place: Enter or leaving it saves, Esc puts back what stood there, Shift+Enter
/// begins a new line.
class InPlaceText : public QPlainTextEdit {
 public:
  InPlaceText(const QString& object_name, const QString& accessible_name, int lines, QWidget* parent)
      : QPlainTextEdit(parent) {
    setObjectName(object_name);
    setAccessibleName(accessible_name);
    setTabChangesFocus(true);
    setVerticalScrollBarPolicy(lines == 1 ? Qt::ScrollBarAlwaysOff : Qt::ScrollBarAsNeeded);
    setFixedHeight(fontMetrics().lineSpacing() * lines + 2 * kGrid);
  }
  std::function<void(const QString&)> onSave;
  /// What the record says. What is being typed just now stays.
  void setSaved(const QString& text) {
    if (text == saved_ && toPlainText() == saved_) return;
    const bool typing = hasFocus() && toPlainText() != saved_;
    saved_ = text;
    if (!typing) setPlainText(text);
  }
  void save() {
    const QString text = toPlainText().trimmed();
    if (text == saved_) return;
    const QString before = std::exchange(saved_, text);
    if (onSave) onSave(text);
    if (saved_ != text) saved_ = before;
  }
  void putBack() { setPlainText(saved_); }

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && !(event->modifiers() & Qt::ShiftModifier)) return save();
    if (event->key() == Qt::Key_Escape) return putBack();
    QPlainTextEdit::keyPressEvent(event);
  }
  void focusOutEvent(QFocusEvent* event) override {
    QPlainTextEdit::focusOutEvent(event);
    if (event->reason() != Qt::PopupFocusReason) save();
  }

 private:
  QString saved_;
};

/// Asks for one amount in place: Enter takes it, Esc leaves.
class AmountBar : public QWidget {
 public:
  AmountBar(const Currency& currency, QWidget* parent)
      : QWidget(parent),
        question_{new QLabel{this}},
        edit_{new MoneyEdit{"amountEdit", currency, this}},
        take_{new QPushButton{this}},
        wrong_{new QLabel{this}} {
    setObjectName("amountBar");
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kGrid / 2);
    question_->setBuddy(edit_);
    setRank(question_, "small");
    setRank(take_, "first");
    setRank(wrong_, "problem");
    wrong_->setWordWrap(true);
    column->addWidget(question_);
    auto* row = new QHBoxLayout;
    row->addWidget(edit_, 1);
    row->addWidget(take_);
    column->addLayout(row);
    column->addWidget(wrong_);
    connect(take_, &QPushButton::clicked, this, [this] { take(); });
    hide();
  }
  /// `act` says what is wrong with the amount, or nothing once it is done. A blank amount is zero where that
  /// `may_be_zero`.
  void ask(const QString& question, const QString& verb, bool may_be_zero,
           std::function<std::optional<Problem>(Money)> act) {
    question_->setText(question);
    edit_->setAccessibleName(question);
    take_->setText(verb);
    act_ = std::move(act);
    may_be_zero_ = may_be_zero;
    edit_->setValue(std::nullopt);
    wrong_->hide();
    before_ = window()->focusWidget();
    show();
    edit_->setFocus();
  }
  void leave() {
    hide();
    if (before_ != nullptr) before_->setFocus();
  }

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    if (event->key() == Qt::Key_Escape) return leave();
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return take();
    QWidget::keyPressEvent(event);
  }

 private:
  void take() {
    std::optional<Problem> wrong = edit_->problem();
    if (!wrong && edit_->isBlank() && !may_be_zero_)
      wrong = Problem{tr("Type an amount first.").toStdString(), "amount", {}};
    if (!wrong) wrong = act_(edit_->value().value_or(Money{}));
    if (!wrong) return leave();
    wrong_->setText(QString::fromStdString(wrong->sentence));
    wrong_->show();
    edit_->setFocus();
  }

  QLabel* question_;
  MoneyEdit* edit_;
  QPushButton* take_;
  QLabel* wrong_;
  std::function<std::optional<Problem>(Money)> act_;
  QPointer<QWidget> before_;
  bool may_be_zero_ = false;
};

QLabel* smallLabel(const QString& text, QWidget* buddy, QWidget* parent) {
  auto* label = new QLabel{text, parent};
  label->setBuddy(buddy);
  setRank(label, "small");
  return label;
}

QPushButton* button(const QString& text, const char* name, const QKeySequence& key, QWidget* parent) {
  auto* made = new QPushButton{text, parent};
  made->setObjectName(name);
  made->setToolTip(key.toString(QKeySequence::NativeText));
  return made;
}

}  // namespace

struct MachineStrip::Impl : public QObject {
  Impl(Session& session_in, MachineStrip* strip_in)
      : QObject(strip_in), session{session_in}, strip{strip_in} {}
  Session& session;
  MachineStrip* strip;
  std::optional<MachineId> machine;
  QWidget* body = nullptr;
  QLabel* nothing = nullptr;
  TagBadge* tag = nullptr;
  QLabel* name = nullptr;
  QLabel* standing_label = nullptr;
  PhotoStrip* photos = nullptr;
  InPlaceText* symptom = nullptr;
  InPlaceText* note = nullptr;
  QPushButton* sale = nullptr;
  QPushButton* scrap_button = nullptr;
  AmountBar* amount = nullptr;
  PaperButton* papers = nullptr;

  void build();
  void edit(std::string Machine::*field, const QString& text);
  void say(const std::optional<Problem>& problem) {
    if (problem) emit strip->wantsSaid(QString::fromStdString(problem->sentence), true);
  }
};

void MachineStrip::Impl::edit(std::string Machine::*field, const QString& text) {
  const auto shop = session.shop();
  const Machine* now = machine ? shop->find(*machine) : nullptr;
  if (now == nullptr || now->*field == text.toStdString()) return;
  Machine changed = *now;
  changed.*field = text.toStdString();
  say(session.perform(edit_machine(*shop, changed)));
}

void MachineStrip::Impl::build() {
  auto* outer = new QVBoxLayout{strip};
  outer->setContentsMargins(0, 0, 0, 0);
  nothing = faded(tr("Choose a machine to see its photos, what it does wrong and what can be done with it."),
                  strip);
  nothing->setWordWrap(true);
  nothing->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  outer->addWidget(nothing);
  body = new QWidget{strip};
  outer->addWidget(body, 1);
  auto* column = new QVBoxLayout{body};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);

  auto* head = new QHBoxLayout;
  head->setSpacing(kGrid);
  tag = new TagBadge{body};
  tag->setObjectName("stripTag");
  connect(tag, &TagBadge::clicked, strip, &MachineStrip::wantsBench);
  name = new QLabel{body};
  name->setObjectName("stripName");
  name->setWordWrap(true);
  setRank(name, "subheading");
  head->addWidget(tag, 0, Qt::AlignTop);
  head->addWidget(name, 1);
  column->addLayout(head);
  standing_label = faded({}, body);
  standing_label->setObjectName("stripStanding");
  standing_label->setWordWrap(true);
  column->addWidget(standing_label);

  photos = new PhotoStrip{session, body};
  connect(photos, &PhotoStrip::wantsSaid, strip, &MachineStrip::wantsSaid);
  auto* add = button(tr("Add a photo"), "addPhoto", QKeySequence{"Ctrl+Shift+P"}, body);
  setRank(add, "quiet");
  connect(add, &QPushButton::clicked, strip, &MachineStrip::addPhotos);
  auto* photos_head = new QHBoxLayout;
  photos_head->addWidget(smallLabel(tr("Photos"), photos, body), 1);
  photos_head->addWidget(add);
  column->addLayout(photos_head);
  column->addWidget(photos);

  symptom = new InPlaceText{"stripSymptom", tr("What it does wrong"), 2, body};
  symptom->setPlaceholderText(tr("not tried yet"));
  symptom->onSave = [this](const QString& text) { edit(&Machine::symptom, text); };
  column->addWidget(smallLabel(tr("What it does wrong"), symptom, body));
  column->addWidget(symptom);
  note = new InPlaceText{"stripNote", tr("Note"), kNoteLines, body};
  note->setPlaceholderText(tr("Anything worth knowing; Enter saves"));
  note->onSave = [this](const QString& text) { edit(&Machine::note, text); };
  column->addWidget(smallLabel(tr("Note"), note, body));
  column->addWidget(note);

  auto* bench = button(tr("Open on the bench"), "openOnBench", QKeySequence{"Return"}, body);
  setRank(bench, "first");
  connect(bench, &QPushButton::clicked, strip, [this] {
    if (machine) emit strip->wantsBench(*machine);
  });
  sale = button(tr("Put for sale"), "putForSale", QKeySequence{"Ctrl+Shift+S"}, body);
  connect(sale, &QPushButton::clicked, strip, &MachineStrip::putForSale);
  scrap_button = button(tr("Scrap"), "scrap", QKeySequence{"Ctrl+Shift+X"}, body);
  connect(scrap_button, &QPushButton::clicked, strip, &MachineStrip::scrap);
  column->addWidget(bench);
  auto* others = new QHBoxLayout;
  others->addWidget(sale, 1);
  others->addWidget(scrap_button, 1);
  std::vector<PaperChoice> choices = machinePapers(session, [this] { return machine; });
  choices.push_back(tagsOfAllHere(session));
  papers = new PaperButton{
      std::move(choices),
      [this](const QString& sentence, bool problem) { emit strip->wantsSaid(sentence, problem); }, body};
  others->addWidget(papers);
  column->addLayout(others);
  amount = new AmountBar{session.currency(), body};
  column->addWidget(amount);
  column->addStretch(1);
}

MachineStrip::MachineStrip(Session& session, QWidget* parent)
    : QWidget(parent), impl_{new Impl{session, this}} {
  setObjectName("machineStrip");
  setAccessibleName(tr("The chosen machine"));
  setAcceptDrops(true);
  impl_->build();
  setMachine(std::nullopt);
}

MachineStrip::~MachineStrip() = default;

std::optional<MachineId> MachineStrip::machine() const {
  return impl_->machine;
}

void MachineStrip::setMachine(std::optional<MachineId> machine) {
  Impl& in = *impl_;
  if (machine != in.machine) {
    in.symptom->save();
    in.note->save();
    in.amount->hide();
    in.machine = machine;
    if (machine) in.photos->setOwner(Photo{.machine = machine});
  }
  reload();
}

void MachineStrip::reload() {
  Impl& in = *impl_;
  const auto shop = in.session.shop();
  const Machine* machine = in.machine ? shop->find(*in.machine) : nullptr;
  in.body->setVisible(machine != nullptr);
  in.nothing->setVisible(machine == nullptr);
  if (machine == nullptr) return;

  const auto books = in.session.books();
  // Books that could not be made for these records are the last good ones, and know nothing of later
  // machines.
  const bool current = books && &books->shop() == shop.get();
  const std::optional<ByMachine> fresh = current ? std::nullopt : std::optional<ByMachine>{*shop};
  const ByMachine::Lines& lines = (current ? books->by_machine() : *fresh).of(machine->id);
  const QString stands = QString::fromStdString(standing(*shop, lines, in.session.today()));
  const QString name = in.session.nameOf(machine->id);
  in.tag->setMachine(machine->id, in.session.tagOf(machine->id), name);
  in.name->setText(name);
  in.standing_label->setText(stands);
  in.symptom->setSaved(QString::fromStdString(machine->symptom));
  in.note->setSaved(QString::fromStdString(machine->note));
  in.photos->reload();
  const Stage stage = stage_of(lines);
  in.sale->setEnabled(is_here(stage));
  in.sale->setText(stage == Stage::for_sale ? tr("New price") : tr("Put for sale"));
  in.scrap_button->setEnabled(is_here(stage));
}

void MachineStrip::putForSale() {
  Impl& in = *impl_;
  if (!in.machine || !in.sale->isEnabled()) return;
  in.amount->ask(tr("Asking price of #%1").arg(in.session.tagOf(*in.machine)), in.sale->text(), false,
                 [&in, machine = *in.machine](Money asking) {
                   return in.session.perform(list_machine(*in.session.shop(), machine, in.session.today(), {},
                                                          asking, std::nullopt));
                 });
}

void MachineStrip::scrap() {
  Impl& in = *impl_;
  if (!in.machine || !in.scrap_button->isEnabled()) return;
  in.amount->ask(tr("Scrap money for #%1, empty for none").arg(in.session.tagOf(*in.machine)), tr("Scrap it"),
                 true, [&in, machine = *in.machine](Money proceeds) {
                   return in.session.perform(dispose(*in.session.shop(), machine, in.session.today(),
                                                     DisposalKind::scrapped, proceeds));
                 });
}

PaperButton& MachineStrip::papers() const {
  return *impl_->papers;
}

void MachineStrip::addPhotos() {
  if (impl_->machine) impl_->photos->chooseFiles();
}

void MachineStrip::dragEnterEvent(QDragEnterEvent* event) {
  if (impl_->machine && event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void MachineStrip::dropEvent(QDropEvent* event) {
  QStringList paths;
  for (const QUrl& url : event->mimeData()->urls())
    if (url.isLocalFile()) paths.push_back(url.toLocalFile());
  event->setDropAction(Qt::CopyAction);
  event->accept();
  impl_->photos->addFiles(paths);
}

}  // namespace secondpull::app
