#include "app/parts/choices.h"

#include <QAbstractItemView>
#include <QButtonGroup>
#include <QCompleter>
#include <QKeyEvent>
#include <QPainter>
#include <QStringListModel>
#include <QToolButton>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kWordGap = 4;
constexpr int kNotePad = 8;
constexpr int kFocusPad = 3;  // room for the line that shows the focus

}  // namespace

struct WordRow::Impl : public QObject {
  Impl(const QStringList& words_in, WordRow* row) : QObject(row), words{words_in}, group{row} {}
  QStringList words;
  QButtonGroup group;
};

WordRow::WordRow(const QString& name, const QStringList& words, QWidget* parent)
    : QWidget(parent), impl_{new Impl{words, this}} {
  setObjectName(name);
  setAccessibleName(name);
  setFocusPolicy(Qt::StrongFocus);
  auto* layout = new Flow{this, kWordGap};
  layout->setContentsMargins(0, kFocusPad, 0, kFocusPad);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  for (int i = 0; i < words.size(); ++i) {
    auto* button = new QToolButton{this};
    button->setText(words[i]);
    button->setCheckable(true);
    button->setFocusPolicy(Qt::NoFocus);
    button->setAccessibleName(words[i]);
    setRank(button, "word");
    impl_->group.addButton(button, i);
    layout->addWidget(button);
  }
  connect(&impl_->group, &QButtonGroup::idClicked, this, [this](int index) {
    setFocus(Qt::MouseFocusReason);
    setCurrent(index);
    emit chosen(index);
  });
  setCurrent(0);
}

int WordRow::current() const {
  return impl_->group.checkedId();
}

void WordRow::setCurrent(int index) {
  QAbstractButton* button = impl_->group.button(index);
  if (button == nullptr) {
    if (QAbstractButton* before = impl_->group.checkedButton()) {
      impl_->group.setExclusive(false);
      before->setChecked(false);
      impl_->group.setExclusive(true);
      setAccessibleDescription({});
    }
    return;
  }
  button->setChecked(true);
  setAccessibleDescription(impl_->words[index]);
}

void WordRow::setWords(const QStringList& words) {
  for (int at = 0; at < std::min(words.size(), impl_->words.size()); ++at) {
    QAbstractButton* button = impl_->group.button(at);
    button->setText(words[at]);
    button->setAccessibleName(words[at]);
    impl_->words[at] = words[at];
  }
  setCurrent(current());
}

void WordRow::keyPressEvent(QKeyEvent* event) {
  const int count = static_cast<int>(impl_->words.size());
  if (count == 0 || (event->modifiers() & ~(Qt::KeypadModifier | Qt::ShiftModifier)) != 0)
    return QWidget::keyPressEvent(event);
  int next = -1;
  if (event->key() == Qt::Key_Right || event->key() == Qt::Key_Down) next = (current() + 1) % count;
  if (event->key() == Qt::Key_Left || event->key() == Qt::Key_Up)
    next = (std::max(current(), 0) + count - 1) % count;
  if (event->key() >= Qt::Key_1 && event->key() < Qt::Key_1 + count && event->key() <= Qt::Key_9)
    next = event->key() - Qt::Key_1;
  if (next < 0 && !event->text().isEmpty() && event->text().front().isLetter()) {
    // The same letter again goes on to the next word that begins with it.
    for (int step = 1; step <= count && next < 0; ++step) {
      const int at = (current() + step) % count;
      if (impl_->words[at].startsWith(event->text(), Qt::CaseInsensitive)) next = at;
    }
  }
  if (next < 0) return QWidget::keyPressEvent(event);
  if (next == current()) return;
  setCurrent(next);
  emit chosen(next);
}

void WordRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}

void WordRow::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

void WordRow::paintEvent(QPaintEvent*) {
  const QAbstractButton* button = impl_->group.checkedButton();
  if (!hasFocus() || button == nullptr) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen{look().accent, 1.5});
  const QRectF around = QRectF{button->geometry()}.adjusted(-2, -2, 2, 2);
  painter.drawRoundedRect(around.intersected(QRectF{rect()}.adjusted(1, 1, -1, -1)), 6, 6);
}

struct RecordPicker::Impl : public QObject {
  Impl(Session& session_in, Of of_in, RecordPicker* picker)
      : QObject(picker), session{session_in}, of{of_in} {}

  struct Entry {
    std::int64_t id;
    QString label;      ///< as it stands in the field once picked
    QStringList alike;  ///< other ways to name it exactly
  };
  Session& session;
  Of of;
  std::vector<Entry> entries;
  QHash<QString, std::int64_t> exact;
  QStringListModel names;
  std::optional<std::int64_t> picked;  ///< kept so that a record of a doubled name stays the one chosen

  void read();
};

void RecordPicker::Impl::read() {
  entries.clear();
  const std::shared_ptr<const Shop> shop = session.shop();
  switch (of) {
    case Of::person:
      for (const Person& person : shop->all<Person>())
        entries.push_back({number(person.id), QString::fromStdString(person.name), {}});
      break;
    case Of::part:
      for (const Part& part : shop->all<Part>()) {
        const QString name = QString::fromStdString(part.name);
        const QString of_maker = QString::fromStdString(part.number);
        entries.push_back({number(part.id),
                           of_maker.isEmpty() ? name : QString{"%1 (%2)"}.arg(name, of_maker),
                           {name, of_maker, QString::fromStdString(part.code)}});
      }
      break;
    case Of::machine_here:
    case Of::machine_any:
    case Of::machine_or_lot: {
      const std::shared_ptr<const Books> books = of == Of::machine_here ? session.books() : nullptr;
      for (const Machine& machine : shop->all<Machine>()) {
        if (books && !is_here(stage_of(books->by_machine().of(machine.id)))) continue;
        const QString tag = session.tagOf(machine.id);
        entries.push_back(
            {number(machine.id), QString{"#%1 %2"}.arg(tag, session.nameOf(machine.id)), {tag, "#" + tag}});
      }
      if (of == Of::machine_or_lot)
        for (const Acquisition& lot : shop->all<Acquisition>()) {
          const QString code = QString::fromStdString(lot.code);
          if (!code.isEmpty()) entries.push_back({number(lot.id), tr("lot %1").arg(code), {code}});
        }
      break;
    }
  }
  exact.clear();
  QStringList labels;
  for (const Entry& entry : entries) {
    labels.append(entry.label);
    for (const QString& way : entry.alike)
      if (const QString key = way.toCaseFolded(); !key.isEmpty() && !exact.contains(key))
        exact.insert(key, entry.id);
  }
  for (const Entry& entry : entries)
    exact.insert(entry.label.toCaseFolded(), entry.id);
  names.setStringList(labels);
}

RecordPicker::RecordPicker(Session& session, Of of, const QString& field, QWidget* parent)
    : QLineEdit(parent), impl_{new Impl{session, of, this}} {
  setObjectName(field);
  auto* completer = new QCompleter{&impl_->names, this};
  completer->setFilterMode(Qt::MatchContains);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setMaxVisibleItems(10);
  setCompleter(completer);
  connect(completer, qOverload<const QModelIndex&>(&QCompleter::activated), this,
          [this, completer](const QModelIndex& index) {
            // Names may be doubled: the row says which of them was meant.
            auto* proxy = qobject_cast<QAbstractProxyModel*>(completer->completionModel());
            const int row = proxy != nullptr ? proxy->mapToSource(index).row() : -1;
            if (row >= 0 && row < static_cast<int>(impl_->entries.size()))
              setPicked(impl_->entries[static_cast<std::size_t>(row)].id);
          });
  connect(this, &QLineEdit::textChanged, this, [this] {
    impl_->picked.reset();
    setTextMargins(0, 0, isNew() ? fontMetrics().horizontalAdvance(tr("not found")) + kNotePad : 0, 0);
    setAccessibleDescription(isNew() ? tr("names none that is known yet") : QString{});
    update();
    emit pickedChanged();
  });
  connect(&session, &Session::changed, this, &RecordPicker::reload);
  reload();
}

std::optional<std::int64_t> RecordPicker::pickedNumber() const {
  if (impl_->picked) return impl_->picked;
  const auto found = impl_->exact.constFind(text().trimmed().toCaseFolded());
  return found == impl_->exact.constEnd() ? std::nullopt : std::optional<std::int64_t>{*found};
}

bool RecordPicker::isNew() const {
  return !text().trimmed().isEmpty() && !pickedNumber();
}

void RecordPicker::setPicked(std::int64_t id) {
  for (const Impl::Entry& entry : impl_->entries)
    if (entry.id == id) {
      setText(entry.label);
      impl_->picked = id;
      emit pickedChanged();
      return;
    }
}

void RecordPicker::reload() {
  impl_->read();
  if (impl_->picked &&
      std::none_of(impl_->entries.begin(), impl_->entries.end(), [&](const Impl::Entry& entry) {
        return entry.id == *impl_->picked && entry.label == text();
      }))
    impl_->picked.reset();
  update();
}

void RecordPicker::paintEvent(QPaintEvent* event) {
  QLineEdit::paintEvent(event);
  if (!isNew()) return;
  const bool machine = impl_->of != Of::person && impl_->of != Of::part;
  QPainter painter(this);
  painter.setPen(machine ? look().bad : look().faded);
  painter.drawText(rect().adjusted(0, 0, -kNotePad, 0), Qt::AlignRight | Qt::AlignVCenter,
                   machine ? tr("not found") : tr("new"));
}

}  // namespace secondpull::app
