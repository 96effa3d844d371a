#include "app/lessons/knowledge_panel.h"

#include <QLabel>
#include <QVBoxLayout>

#include "app/parts/look.h"
#include "core/learning/knowledge_base.h"

namespace secondpull::app {

KnowledgePanel::KnowledgePanel(Session& session, QWidget* parent)
    : LessonsPanel(session, parent), words_{faded({}, this)} {
  auto* column = new QVBoxLayout(this);
  column->addWidget(words_);
  column->addStretch(1);
}

void KnowledgePanel::refresh() {
  const learning::Knowledge& knowledge = session().knowledge()->knowledge;
  words_->setText(tr("%1 symptoms, %2 causes, %3 tests, %4 repairs")
                      .arg(knowledge.symptoms.size())
                      .arg(knowledge.causes.size())
                      .arg(knowledge.tests.size())
                      .arg(knowledge.repairs.size()));
}

void KnowledgePanel::start() {
  setFocus();
}

Report KnowledgePanel::report() const {
  return {.title = tr("Knowledge base"), .notes = {words_->text()}, .file_name = QStringLiteral("knowledge")};
}

}  // namespace secondpull::app
