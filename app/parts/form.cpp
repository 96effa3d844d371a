#include "app/parts/form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QJsonDocument>
#include <QJsonObject>
#include <QKeyEvent>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTimer>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kDraftAfterMs = 1000;
constexpr int kMostColumns = 5;
constexpr QLatin1String kExtra{"+"};  // what no field holds, in a draft
constexpr QChar kGuessMark{0x2248};   // before the text of a guess in a draft

QString contentOf(const QWidget* widget) {
  if (const auto* typed = qobject_cast<const TypedEdit*>(widget))
    return typed->isGuess() ? kGuessMark + typed->text() : typed->text();
  if (const auto* line = qobject_cast<const QLineEdit*>(widget)) return line->text();
  if (const auto* words = qobject_cast<const WordRow*>(widget)) return QString::number(words->current());
  if (const auto* combo = qobject_cast<const QComboBox*>(widget)) return combo->currentText();
  if (const auto* text = qobject_cast<const QPlainTextEdit*>(widget)) return text->toPlainText();
  if (const auto* check = qobject_cast<const QCheckBox*>(widget)) return check->isChecked() ? "yes" : "";
  return {};
}

void setContent(QWidget* widget, const QString& content) {
  if (auto* typed = qobject_cast<TypedEdit*>(widget)) {
    if (content.startsWith(kGuessMark)) return typed->setGuess(content.mid(1));
    typed->setGuess({});
    return typed->setText(content);
  }
  if (auto* line = qobject_cast<QLineEdit*>(widget)) return line->setText(content);
  if (auto* words = qobject_cast<WordRow*>(widget)) {
    const int index = content.isEmpty() ? 0 : content.toInt();
    if (index == words->current()) return;
    words->setCurrent(index);
    emit words->chosen(index);  // what hangs on the choice follows it
    return;
  }
  if (auto* combo = qobject_cast<QComboBox*>(widget)) {
    const int at = combo->findText(content);
    if (at >= 0)
      combo->setCurrentIndex(at);
    else if (combo->isEditable())
      combo->setEditText(content);
    else
      combo->setCurrentIndex(0);
    return;
  }
  if (auto* text = qobject_cast<QPlainTextEdit*>(widget)) return text->setPlainText(content);
  if (auto* check = qobject_cast<QCheckBox*>(widget)) check->setChecked(content == "yes");
}

}  // namespace

struct Form::Impl : public QObject {
  Impl(Session& session_in, QString name_in, Form* form_in)
      : QObject(form_in), session{session_in}, name{std::move(name_in)}, form{form_in} {}

  struct Field {
    QString name;
    QWidget* widget;
    QLabel* problem;
  };
  Session& session;
  QString name;
  Form* form;
  std::vector<Field> fields;
  std::function<std::optional<Problem>()> save;
  std::function<QString()> write_extra;
  std::function<void(const QString&)> read_extra;
  QGridLayout* grid = nullptr;
  QWidget* body = nullptr;  ///< the fields and buttons: not to be touched while the draft is offered
  QWidget* offer = nullptr;
  QPushButton* go_on = nullptr;
  QPushButton* save_button = nullptr;
  QLabel* head = nullptr;
  QLabel* general = nullptr;  ///< a problem that names no field here
  QTimer timer;
  QJsonObject untouched;  ///< the fields as the page filled them in
  QString untouched_extra;
  int columns = 2, row = 0, column = 0;

  QJsonObject contents() const {
    QJsonObject all;
    for (const Field& field : fields)
      all[field.name] = contentOf(field.widget);
    return all;
  }
  void noteUntouched() {
    untouched = contents();
    if (write_extra) untouched_extra = write_extra();
  }
  QString asText() const {
    QJsonObject all = contents();
    if (write_extra) all[kExtra] = write_extra();
    return QString::fromUtf8(QJsonDocument{all}.toJson(QJsonDocument::Compact));
  }
  bool offering() const { return offer->isVisibleTo(form); }
  void touched() {
    if (form->isVisible() && !offering()) timer.start();
  }
  /// Does anything stand here that the person put in? Guesses that the program wrote are no draft.
  bool filledIn() const {
    if (write_extra && write_extra() != untouched_extra) return true;
    return std::any_of(fields.begin(), fields.end(), [&](const Field& field) {
      const QString content = contentOf(field.widget);
      return content != untouched[field.name].toString() && !content.startsWith(kGuessMark);
    });
  }
  void keep() {
    timer.stop();
    if (offering()) return;
    if (filledIn())
      session.saveDraft(name, asText());
    else
      session.dropDraft(name);
  }
  void restore(const QString& draft);
  void answer(bool restore_it);
  void watch(QWidget* widget);
  void showUnder(const Field& field, const QString& sentence) {
    field.problem->setText(sentence);
    field.problem->setVisible(!sentence.isEmpty());
    if (!sentence.isEmpty()) field.widget->setAccessibleDescription(sentence);
  }
  void clearProblems() {
    for (const Field& field : fields)
      showUnder(field, {});
    general->hide();
  }
  bool ownProblems();
  void trySave();
  void focusFirst() {
    for (const Field& field : fields)
      if (field.widget->isVisibleTo(form) && field.widget->isEnabled()) return field.widget->setFocus();
  }
};

void Form::Impl::watch(QWidget* widget) {
  const auto note = [this] { touched(); };
  if (auto* line = qobject_cast<QLineEdit*>(widget)) connect(line, &QLineEdit::textChanged, this, note);
  if (auto* words = qobject_cast<WordRow*>(widget)) connect(words, &WordRow::chosen, this, note);
  if (auto* combo = qobject_cast<QComboBox*>(widget)) {
    connect(combo, &QComboBox::currentIndexChanged, this, note);
    connect(combo, &QComboBox::editTextChanged, this, note);
  }
  if (auto* text = qobject_cast<QPlainTextEdit*>(widget))
    connect(text, &QPlainTextEdit::textChanged, this, note);
  if (auto* check = qobject_cast<QCheckBox*>(widget)) connect(check, &QCheckBox::toggled, this, note);
}

void Form::Impl::restore(const QString& draft) {
  const QJsonObject kept = QJsonDocument::fromJson(draft.toUtf8()).object();
  for (const Field& field : fields)
    if (kept.contains(field.name)) setContent(field.widget, kept[field.name].toString());
  if (read_extra && kept.contains(kExtra)) read_extra(kept[kExtra].toString());
}

void Form::Impl::answer(bool restore_it) {
  offer->hide();
  body->setEnabled(true);
  if (restore_it)
    restore(session.draft(name).value_or(QString{}));
  else
    session.dropDraft(name);
  focusFirst();
}

bool Form::Impl::ownProblems() {
  QWidget* first = nullptr;
  for (const Field& field : fields) {
    auto* typed = qobject_cast<TypedEdit*>(field.widget);
    if (typed == nullptr || !typed->isVisibleTo(form) || !typed->isEnabled()) continue;
    const std::optional<Problem> wrong = typed->problem();
    if (!wrong) continue;
    typed->markProblem();
    showUnder(field, QString::fromStdString(wrong->sentence));
    if (first == nullptr) first = typed;
  }
  if (first != nullptr) first->setFocus();
  return first != nullptr;
}

void Form::Impl::trySave() {
  if (offering()) return answer(true);
  clearProblems();
  if (ownProblems() || !save) return;
  timer.stop();
  if (const std::optional<Problem> wrong = save()) {
    form->showProblem(*wrong);
    keep();
    return;
  }
  timer.stop();
  session.dropDraft(name);
  noteUntouched();
  emit form->saved();
}

Form::Form(Session& session, const QString& name, const QString& title, QWidget* parent)
    : QFrame(parent), impl_{new Impl{session, name, this}} {
  setObjectName(name);
  setAccessibleName(title);
  setRank(this, "card");
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(2 * kGrid, 2 * kGrid, 2 * kGrid, 2 * kGrid);
  outer->setSpacing(kGrid);
  if (!title.isEmpty()) {
    impl_->head = new QLabel{title, this};
    setRank(impl_->head, "subheading");
    outer->addWidget(impl_->head);
  }

  impl_->offer = new QWidget{this};
  auto* offer_row = new QHBoxLayout{impl_->offer};
  offer_row->setContentsMargins(0, 0, 0, 0);
  auto* question = new QLabel{tr("What you had typed here was not saved. Go on with it?"), impl_->offer};
  question->setWordWrap(true);
  impl_->go_on = new QPushButton{tr("Go on"), impl_->offer};
  impl_->go_on->setObjectName("draftGoOn");
  setRank(impl_->go_on, "first");
  auto* afresh = new QPushButton{tr("Start afresh"), impl_->offer};
  afresh->setObjectName("draftAfresh");
  offer_row->addWidget(question, 1);
  offer_row->addWidget(impl_->go_on);
  offer_row->addWidget(afresh);
  impl_->offer->hide();
  outer->addWidget(impl_->offer);
  connect(impl_->go_on, &QPushButton::clicked, this, [this] { impl_->answer(true); });
  connect(afresh, &QPushButton::clicked, this, [this] { impl_->answer(false); });

  impl_->body = new QWidget{this};
  auto* body = new QVBoxLayout{impl_->body};
  body->setContentsMargins(0, 0, 0, 0);
  body->setSpacing(kGrid);
  impl_->grid = new QGridLayout;
  impl_->grid->setHorizontalSpacing(2 * kGrid);
  impl_->grid->setVerticalSpacing(kGrid);
  body->addLayout(impl_->grid);
  impl_->general = new QLabel{impl_->body};
  impl_->general->setObjectName("problem");
  impl_->general->setWordWrap(true);
  setRank(impl_->general, "problem");
  impl_->general->hide();
  body->addWidget(impl_->general);
  auto* buttons = new QHBoxLayout;
  impl_->save_button = new QPushButton{tr("Save"), impl_->body};
  impl_->save_button->setObjectName("save");
  impl_->save_button->setToolTip(tr("Enter"));
  setRank(impl_->save_button, "first");
  auto* leave_button = new QPushButton{tr("Leave"), impl_->body};
  leave_button->setObjectName("leave");
  leave_button->setToolTip(tr("Esc; what was typed is kept"));
  buttons->addWidget(impl_->save_button);
  buttons->addWidget(leave_button);
  buttons->addWidget(faded(tr("Enter saves, Esc leaves"), impl_->body), 1);
  body->addLayout(buttons);
  outer->addWidget(impl_->body);
  connect(impl_->save_button, &QPushButton::clicked, this, [this] { impl_->trySave(); });
  connect(leave_button, &QPushButton::clicked, this, &Form::leave);

  impl_->timer.setSingleShot(true);
  impl_->timer.setInterval(kDraftAfterMs);
  connect(&impl_->timer, &QTimer::timeout, this, [this] { impl_->keep(); });
}

void Form::addField(const QString& field, const QString& label, QWidget* widget, int column_span) {
  Impl& in = *impl_;
  const int span = std::clamp(column_span, 1, in.columns);
  if (in.column + span > in.columns) {
    in.column = 0;
    ++in.row;
  }
  auto* cell = new QWidget{in.body};
  auto* stack = new QVBoxLayout{cell};
  stack->setContentsMargins(0, 0, 0, 0);
  stack->setSpacing(kGrid / 4);
  auto* name = new QLabel{label, cell};
  name->setBuddy(widget);
  name->setWordWrap(true);
  setRank(name, "small");
  name->setVisible(!label.isEmpty());
  auto* problem_label = new QLabel{cell};
  problem_label->setObjectName("problem." + field);
  problem_label->setWordWrap(true);
  setRank(problem_label, "problem");
  problem_label->hide();
  QString plain_label = label;
  widget->setAccessibleName(plain_label.remove('&'));
  if (widget->objectName().isEmpty()) widget->setObjectName(field);
  stack->addWidget(name);
  stack->addWidget(widget);
  stack->addWidget(problem_label);
  stack->addStretch(1);
  in.grid->addWidget(cell, in.row, in.column, 1, span);
  in.column += span;
  if (auto* text = qobject_cast<QPlainTextEdit*>(widget)) text->setTabChangesFocus(true);
  in.fields.push_back({field, widget, problem_label});
  in.noteUntouched();
  in.watch(widget);
  setTabOrder(widget, in.save_button);
}

void Form::addWide(QWidget* widget) {
  Impl& in = *impl_;
  if (in.column > 0) ++in.row;
  in.grid->addWidget(widget, in.row++, 0, 1, in.columns);
  in.column = 0;
}

void Form::setFieldShown(const QString& field, bool shown) {
  for (const Impl::Field& at : impl_->fields)
    if (at.name == field) at.widget->parentWidget()->setVisible(shown);
}

void Form::setExtraDraft(std::function<QString()> write, std::function<void(const QString&)> read) {
  impl_->write_extra = std::move(write);
  impl_->read_extra = std::move(read);
  impl_->noteUntouched();
}

void Form::noteEdited() {
  impl_->touched();
}

void Form::setTitleShown(bool shown) {
  if (impl_->head != nullptr) impl_->head->setVisible(shown);
}

void Form::setColumns(int columns) {
  impl_->columns = std::clamp(columns, 1, kMostColumns);
  for (int column = 0; column < kMostColumns; ++column)
    impl_->grid->setColumnStretch(column, column < impl_->columns ? 1 : 0);
}

void Form::setSaveText(const QString& text) {
  impl_->save_button->setText(text);
}
void Form::onSave(std::function<std::optional<Problem>()> save) {
  impl_->save = std::move(save);
}

void Form::open() {
  Impl& in = *impl_;
  in.clearProblems();
  const std::optional<QString> draft = in.session.draft(in.name);
  const bool other = draft && *draft != in.asText();
  if (!draft) in.noteUntouched();
  in.offer->setVisible(other);
  in.body->setEnabled(!other);
  show();
  if (other)
    in.go_on->setFocus();
  else
    in.focusFirst();
}

void Form::leave() {
  if (impl_->timer.isActive()) impl_->keep();
  hide();
  emit left();
}

void Form::clear() {
  empty();
  impl_->session.dropDraft(impl_->name);
}

void Form::empty() {
  Impl& in = *impl_;
  for (const Impl::Field& field : in.fields)
    setContent(field.widget, {});
  in.clearProblems();
  noteFilled();
}

void Form::noteFilled() {
  impl_->timer.stop();
  impl_->noteUntouched();
}

void Form::setDraftName(const QString& name) {
  if (name == impl_->name) return;
  impl_->keep();
  impl_->name = name;
}

bool Form::showOwnProblems() {
  impl_->clearProblems();
  return impl_->ownProblems();
}

void Form::showProblem(const Problem& problem) {
  const QString sentence = QString::fromStdString(problem.sentence);
  for (const Impl::Field& field : impl_->fields)
    if (field.name == QString::fromStdString(problem.field) && field.widget->isVisibleTo(this)) {
      impl_->showUnder(field, sentence);
      field.widget->setFocus();
      return;
    }
  impl_->general->setText(sentence);
  impl_->general->show();
}

void Form::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (enter) {
    auto* button = qobject_cast<QPushButton*>(focusWidget());
    if (button != nullptr && button != impl_->save_button && button->hasFocus())
      button->click();
    else
      impl_->trySave();
    return;
  }
  if (event->key() == Qt::Key_Escape) {
    if (impl_->offering()) return impl_->answer(false);
    return leave();
  }
  QFrame::keyPressEvent(event);
}

void Form::hideEvent(QHideEvent* event) {
  QFrame::hideEvent(event);
  if (impl_->timer.isActive()) impl_->keep();
}

}  // namespace secondpull::app
