#pragma once

#include <memory>

#include <QTimer>

#include "app/lessons/knowledge_drafts.h"
#include "app/lessons/knowledge_list.h"
#include "app/lessons/lessons_panel.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class EntryEditor;
class TwoSides;
class WouldChangeView;

/// The knowledge base: what is published, what the shop has of its own, and what its record teaches. An entry
/// is changed in fields; before it is kept the panel says what it would change. What is typed stays until it
/// is saved or given up, whatever is looked at meanwhile, and over the end of the program. Object names:
/// knowledgeName, knowledgeWhose,
/// knowledgeSave, knowledgeAsItWas, knowledgePublishedAgain, knowledgeProblem.
class KnowledgePanel : public LessonsPanel {
  Q_OBJECT
 public:
  KnowledgePanel(Session& session, QWidget* parent);
  ~KnowledgePanel() override;
  void refresh() override;
  void start() override;
  Report report() const override;

  /// Shows that entry.
  void open(const QString& section, const QString& id);
  /// A new entry of the section, to be filled in.
  void openNew(const QString& section);
  /// Whether what would change is still to be said of what is typed.
  bool isWorking() const;

 protected:
  void hideEvent(QHideEvent* event) override;

 private:
  using Key = KnowledgeDrafts::Key;

  QWidget* makeEntry();
  void fillList();
  void showEntry(const Key& key);
  void noteTyped();  ///< keeps what is typed as a draft, and has what it would do worked out
  void askWhatChanges();
  EntrySheet kept(const Key& key) const;
  Result<db::KnowledgeEntry> typed() const;
  std::string idToKeep(const EntrySheet& sheet) const;
  void save();
  void asItWas();
  void publishedAgain();
  void tell(const Problem& problem);
  void showHead();
  bool isTyped(const Key& key) const { return drafts_.find(key) != nullptr; }

  std::shared_ptr<const learning::KnowledgeBase> base_;
  std::optional<Key> current_;
  KnowledgeDrafts drafts_;
  EntrySheet untouched_;  ///< of the entry shown, as the fields give it back
  QTimer soon_, later_;   ///< for what would change; for the draft
  TwoSides* sides_;
  KnowledgeList* list_;
  QLabel* broken_;
  QLabel* name_;
  QLabel* whose_;
  EntryEditor* editor_;
  QPushButton* save_;
  QPushButton* as_it_was_;
  QPushButton* published_again_;
  QLabel* problem_;
  WouldChangeView* changes_;
};

}  // namespace secondpull::app
