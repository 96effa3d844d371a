#pragma once

class QWidget;

namespace secondpull::app {

class Page;
class Session;

/// What the shop's own record teaches, one question a sub-page, and the knowledge base to read and to change.
/// Object names: lessonsPage, lessonsWords.
Page* makeLessonsPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
