#include "app/lessons/knowledge_panel.h"

#include <algorithm>
#include <utility>

#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

#include "app/lessons/entry_editor.h"
#include "app/lessons/would_change_view.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/planning/planning.h"
#include "app/print/table_report.h"
#include "core/shop/knowledge_edits.h"
#include "db/exchange/knowledge_json.h"

namespace secondpull::app {
namespace {

constexpr int kSoonMs = 400, kLaterMs = 1000;
constexpr int kListWidth = 46 * kGrid;
constexpr int kEntryWidth = 70 * kGrid;
const QString kOwn = QStringLiteral("own experience");

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

}  // namespace

KnowledgePanel::KnowledgePanel(Session& session, QWidget* parent)
    : LessonsPanel(session, parent),
      base_{session.knowledge()},
      drafts_{session},
      list_{new KnowledgeList{session}} {
  broken_ = new QLabel{this};
  broken_->setWordWrap(true);
  setRank(broken_, "problem");
  sides_ = new TwoSides{tr("Shown"),
                        QStringLiteral("knowledgeSides"),
                        {.widget = list_, .word = tr("list"), .least = kListWidth, .stretch = 0},
                        {.widget = makeEntry(), .word = tr("entry"), .least = kEntryWidth},
                        TwoSides::Between::gap,
                        this};
  auto* column = new QVBoxLayout{this};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  column->addWidget(sides_->words());
  column->addWidget(broken_);
  column->addWidget(sides_, 1);
  connect(list_, &KnowledgeList::chosen, this, [this](const QString& section, const QString& id) {
    showEntry({section, id});
  });
  connect(list_, &KnowledgeList::opened, this, [this] {
    sides_->turnTo(1);
    editor_->start();
  });
  connect(list_, &KnowledgeList::wantsNew, this, &KnowledgePanel::openNew);
  for (QTimer* timer : {&soon_, &later_})
    timer->setSingleShot(true);
  soon_.setInterval(kSoonMs);
  later_.setInterval(kLaterMs);
  connect(&soon_, &QTimer::timeout, this, &KnowledgePanel::askWhatChanges);
  connect(&later_, &QTimer::timeout, this, [this] { drafts_.write(); });
  auto* keys = new QShortcut{QKeySequence{Qt::CTRL | Qt::Key_S}, this};
  keys->setContext(Qt::WidgetWithChildrenShortcut);
  connect(keys, &QShortcut::activated, this, &KnowledgePanel::save);
  showEntry({});
}

KnowledgePanel::~KnowledgePanel() = default;

QWidget* KnowledgePanel::makeEntry() {
  auto* side = new QWidget;
  auto* column = new QVBoxLayout{side};
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid);
  name_ = heading({}, side);
  name_->setObjectName(QStringLiteral("knowledgeName"));
  name_->setWordWrap(true);
  whose_ = faded({}, side);
  whose_->setObjectName(QStringLiteral("knowledgeWhose"));
  whose_->setWordWrap(true);
  editor_ = new EntryEditor{side};
  connect(editor_, &EntryEditor::edited, this, &KnowledgePanel::noteTyped);
  connect(editor_, &EntryEditor::entered, this, &KnowledgePanel::save);
  problem_ = new QLabel{side};
  problem_->setObjectName(QStringLiteral("knowledgeProblem"));
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  const auto button = [&](const char* object, const QString& words, const QString& tip, auto act) {
    auto* made = new QPushButton{words, side};
    made->setObjectName(QString::fromLatin1(object));
    made->setToolTip(tip);
    connect(made, &QPushButton::clicked, this, act);
    return made;
  };
  save_ = button("knowledgeSave", tr("Save"), tr("Ctrl+S: kept as your own entry; it can be undone"),
                 &KnowledgePanel::save);
  setRank(save_, "first");
  as_it_was_ = button("knowledgeAsItWas", tr("As it was"), tr("gives up what is typed and not saved"),
                      &KnowledgePanel::asItWas);
  published_again_ = button("knowledgePublishedAgain", tr("Published again"),
                            tr("drops your own entry, which can be undone, and what is typed and not saved"),
                            &KnowledgePanel::publishedAgain);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(save_);
  buttons->addWidget(as_it_was_);
  buttons->addWidget(published_again_);
  buttons->addStretch(1);
  changes_ = new WouldChangeView{session(), side};
  connect(changes_, &WouldChangeView::wantsMachine, this, &LessonsPanel::wantsMachine);
  column->addWidget(name_);
  column->addWidget(whose_);
  column->addWidget(editor_, 1);
  column->addWidget(problem_);
  column->addWidget(changes_);
  column->addLayout(buttons);
  return side;
}

void KnowledgePanel::refresh() {
  base_ = session().knowledge();
  const auto wrong = session().knowledgeProblem();
  broken_->setVisible(wrong.has_value());
  if (wrong)
    broken_->setText(
        tr("Your own entries cannot be read as they are, so only the published ones count. %1 Change "
           "that entry, or have the published one again.")
            .arg(text(wrong->sentence)));
  fillList();
  if (!current_ && !list_->rows().empty()) {
    const EntryRow& first = list_->rows().front();
    current_ = Key{first.section, first.id};
  }
  if (current_) showEntry(*current_);
}

void KnowledgePanel::fillList() {
  std::vector<EntryRow> rows = entryRows(session());
  for (const auto& [key, sheet] : drafts_.all()) {
    const auto at = std::find_if(rows.begin(), rows.end(), [&](const EntryRow& row) {
      return row.section == key.first && row.id == key.second;
    });
    if (at != rows.end()) {
      at->is_typed = true;
    } else if (key.second.isEmpty()) {
      const Rows& named = rowsOf(sheet, QStringLiteral("name"));
      const QString name = named.empty() ? QString{} : named.front().value(0).trimmed();
      rows.insert(rows.begin(),
                  EntryRow{.section = key.first,
                           .id = {},
                           .name = name.isEmpty() ? tr("New %1").arg(sectionSpec(key.first).one) : name,
                           .is_typed = true});
    }
  }
  list_->setRows(std::move(rows));
}

EntrySheet KnowledgePanel::kept(const Key& key) const {
  const auto& [section, id] = key;
  if (id.isEmpty()) return emptySheet(section);
  const Currency currency = session().currency();
  if (const auto own = ownText(*session().shop(), section, id))
    if (const auto read = db::read_entry(section.toStdString(), id.toStdString(), *own))
      return sheetOf(*read, *base_, currency);
  if (const auto entry = db::find_entry(*base_, section.toStdString(), id.toStdString()))
    return sheetOf(*entry, *base_, currency);
  return emptySheet(section);
}

void KnowledgePanel::showEntry(const Key& key) {
  editor_->finishCell();
  soon_.stop();
  problem_->hide();
  if (key.first.isEmpty()) {
    current_.reset();
    list_->setCurrent(std::nullopt);
    editor_->clear();
    showHead();
    return;
  }
  // The same entry once more: the person goes on where they were.
  const bool again = current_ == key && editor_->widget() != nullptr;
  const QWidget* const focus = QApplication::focusWidget();
  const QString focused =
      again && focus != nullptr && editor_->isAncestorOf(focus) ? focus->objectName() : QString{};
  const int scrolled = again ? editor_->verticalScrollBar()->value() : 0;
  current_ = key;
  list_->setCurrent(current_);
  const auto published =
      db::find_entry(db::published_knowledge(), key.first.toStdString(), key.second.toStdString());
  editor_->showEntry(
      key.first, kept(key), *base_,
      Beside{key.first, key.second.toStdString(),
             published ? std::optional{sheetOf(*published, db::published_knowledge(), session().currency())}
                       : std::nullopt,
             session().planning().situation()});
  untouched_ = editor_->sheet();
  if (const EntrySheet* const draft = drafts_.find(key)) editor_->setSheet(*draft);
  if (const auto entry = typed()) editor_->setTyped(*entry);
  showHead();
  askWhatChanges();
  if (auto* const field = focused.isEmpty() ? nullptr : editor_->findChild<QWidget*>(focused))
    field->setFocus();
  if (!again) return;
  editor_->widget()->adjustSize();
  editor_->verticalScrollBar()->setValue(scrolled);
}

void KnowledgePanel::open(const QString& section, const QString& id) {
  list_->show({});
  showEntry({section, id});
  sides_->turnTo(1);
}

void KnowledgePanel::openNew(const QString& section) {
  if (drafts_.find({section, {}}) == nullptr) drafts_.put({section, {}}, emptySheet(section));
  list_->show(section);
  current_ = Key{section, {}};
  fillList();
  showEntry(*current_);
  sides_->turnTo(1);
  editor_->start();
}

Result<db::KnowledgeEntry> KnowledgePanel::typed() const {
  const EntrySheet sheet = editor_->sheet();
  return entryOf(current_->first, idToKeep(sheet), sheet, *base_, session().currency());
}

std::string KnowledgePanel::idToKeep(const EntrySheet& sheet) const {
  if (!current_->second.isEmpty()) return current_->second.toStdString();
  const Rows& name = rowsOf(sheet, QStringLiteral("name"));
  return db::new_entry_id(*base_, *session().shop(),
                          name.empty() ? std::string{} : name.front().value(0).toStdString());
}

void KnowledgePanel::noteTyped() {
  if (!current_) return;
  const EntrySheet sheet = editor_->sheet();
  const bool was = isTyped(*current_);
  const bool is = current_->second.isEmpty() || sheet != untouched_;
  if (is)
    drafts_.put(*current_, sheet);
  else
    drafts_.drop(*current_);
  if (was != is || current_->second.isEmpty()) fillList();
  editor_->clearProblems();
  problem_->hide();
  showHead();
  soon_.start();
  later_.start();
}

void KnowledgePanel::askWhatChanges() {
  if (!current_) return;
  const auto entry = typed();
  if (entry) editor_->setTyped(*entry);
  if (!isTyped(*current_))
    return changes_->say(tr("What would change is said here as soon as you change something."));
  if (!entry)
    return changes_->say(
        tr("What would change is worked out once it can be read. %1").arg(text(entry.error().sentence)));
  changes_->ask(current_->first.toStdString(), db::id_of(*entry), db::write_entry(*entry));
}

bool KnowledgePanel::isWorking() const {
  return soon_.isActive() || changes_->isWorking();
}

void KnowledgePanel::showHead() {
  const bool shown = current_.has_value();
  for (QPushButton* each : {save_, as_it_was_, published_again_})
    each->setVisible(shown);
  if (!shown) {
    name_->setText(tr("Choose an entry"));
    whose_->clear();
    changes_->say({});
    return;
  }
  const auto& [section, id] = *current_;
  const QString one = sectionSpec(section).one;
  const auto shop = session().shop();
  const bool is_own = ownText(*shop, section, id).has_value();
  const bool is_published =
      db::find_entry(db::published_knowledge(), section.toStdString(), id.toStdString()).has_value();
  name_->setText(id.isEmpty() ? tr("New %1").arg(one) : nameOf(*base_, section, id));
  QString words = id.isEmpty()   ? tr("A new %1 of your own.").arg(one)
                  : !is_own      ? tr("A %1 as published.").arg(one)
                  : is_published ? tr("A %1 of your own, in the place of the published one.").arg(one)
                                 : tr("A %1 of your own; none like it is published.").arg(one);
  if (isTyped(*current_)) words += QLatin1Char(' ') + tr("What you typed is not saved yet.");
  whose_->setText(words);
  save_->setEnabled(isTyped(*current_));
  as_it_was_->setEnabled(isTyped(*current_));
  published_again_->setText(is_own && !is_published ? tr("Take it out") : tr("Published again"));
  published_again_->setEnabled(is_own);
}

void KnowledgePanel::tell(const Problem& problem) {
  if (editor_->showProblem(problem)) return problem_->hide();
  problem_->setText(text(problem.sentence));
  problem_->show();
}

void KnowledgePanel::save() {
  editor_->finishCell();
  if (!current_ || !isTyped(*current_)) return;
  editor_->clearProblems();
  problem_->hide();
  auto entry = typed();
  if (!entry) return tell(entry.error());
  const Key key = *current_;
  const std::string section = key.first.toStdString();
  const std::string id = db::id_of(*entry);
  const auto published = db::find_entry(db::published_knowledge(), section, id);
  const bool is_as_published = published && db::write_entry(*published) == db::write_entry(*entry);
  // A number that the publications do not have says whose it is.
  learning::Origin& origin = entry->text.origin;
  if (published && !is_as_published && !text(origin.note).contains(kOwn) &&
      origin.note == published->text.origin.note) {
    origin.note += origin.note.empty() ? kOwn.toStdString() : "; " + kOwn.toStdString();
    if (auto* check = std::get_if<learning::SaleCheck>(&entry->of)) check->origin = origin;
  }
  const auto shop = session().shop();
  const std::string written = db::write_entry(*entry);
  const auto then = is_as_published ? db::knowledge_if_dropped(*shop, section, id)
                                    : db::knowledge_if_kept(*shop, section, id, written);
  if (!then) return tell(then.error());
  auto change = is_as_published ? drop_entry(*shop, section, id) : keep_entry(*shop, section, id, written);
  const QString name = nameOf(*then, key.first, text(id));
  if (change)
    change->set_title((is_as_published ? tr("Published again: %1").arg(name) : tr("Own entry: %1").arg(name))
                          .toStdString());
  const bool nothing = change && change->empty();
  if (!nothing)
    if (const auto wrong = session().perform(std::move(change))) return tell(*wrong);
  drafts_.drop(key);
  drafts_.write();
  current_ = Key{key.first, text(id)};
  refresh();
  emit said(nothing ? tr("%1: nothing differs from what was there.").arg(name) : tr("Kept: %1").arg(name),
            false);
}

void KnowledgePanel::asItWas() {
  if (!current_) return;
  const Key key = *current_;
  drafts_.drop(key);
  drafts_.write();
  if (key.second.isEmpty()) current_.reset();
  refresh();
}

void KnowledgePanel::publishedAgain() {
  if (!current_) return;
  const Key key = *current_;
  const std::string section = key.first.toStdString(), id = key.second.toStdString();
  const auto shop = session().shop();
  const QString name = nameOf(*base_, key.first, key.second);
  // With own entries that cannot be read nothing is tried out first: dropping one is the way out.
  if (!session().knowledgeProblem())
    if (const auto then = db::knowledge_if_dropped(*shop, section, id); !then) return tell(then.error());
  auto change = drop_entry(*shop, section, id);
  const bool is_published = db::find_entry(db::published_knowledge(), section, id).has_value();
  if (change)
    change->set_title(
        (is_published ? tr("Published again: %1") : tr("Taken out: %1")).arg(name).toStdString());
  if (const auto wrong = session().perform(std::move(change))) return tell(*wrong);
  drafts_.drop(key);
  drafts_.write();
  if (!is_published) current_.reset();
  refresh();
}

void KnowledgePanel::hideEvent(QHideEvent* event) {
  if (later_.isActive()) drafts_.write();
  later_.stop();
  LessonsPanel::hideEvent(event);
}

void KnowledgePanel::start() {
  list_->start();
}

Report KnowledgePanel::report() const {
  Report made{.title = tr("Knowledge base"), .file_name = QStringLiteral("knowledge")};
  if (!current_) {
    made.sections.push_back(sectionOf(list_->table()));
    return made;
  }
  made.title = tr("Knowledge base: %1").arg(name_->text());
  ReportSection fields{.columns = {{tr("Field")}, {tr("As it stands")}, {tr("Published")}}};
  const auto published = db::find_entry(db::published_knowledge(), current_->first.toStdString(),
                                        current_->second.toStdString());
  const EntrySheet theirs =
      published ? sheetOf(*published, db::published_knowledge(), session().currency()) : EntrySheet{};
  for (const FieldSpec& field : fieldsOf(current_->first)) {
    const Rows& own = rowsOf(untouched_, field.key);
    const Rows& other = rowsOf(theirs, field.key);
    fields.rows.push_back(
        {.cells = {field.label, inWords(field, own, *base_),
                   !published             ? tr("not published")
                   : sameRows(own, other) ? tr("the same")
                                          : inWords(field, other, db::published_knowledge())}});
  }
  made.sections.push_back(std::move(fields));
  made.notes << whose_->text();
  return made;
}

}  // namespace secondpull::app
