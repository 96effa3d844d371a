#pragma once

#include "app/lessons/lessons_panel.h"

class QLabel;

namespace secondpull::app {

/// The knowledge base: what is published, what the shop has of its own, and what its record teaches.
class KnowledgePanel : public LessonsPanel {
  Q_OBJECT
 public:
  KnowledgePanel(Session& session, QWidget* parent);
  void refresh() override;
  void start() override;
  Report report() const override;

 private:
  QLabel* words_;
};

}  // namespace secondpull::app
