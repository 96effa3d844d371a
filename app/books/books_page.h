#pragma once

class QWidget;

namespace secondpull::app {

class Page;
class Session;

/// The Books: what every machine earned, the year and its papers. A row of words (booksWords) chooses the
/// sub-page (books_panel.h), each made when it is first wanted; booksYear the year; reportPrint, reportPdf
/// and reportCsv write what is shown.
Page* makeBooksPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
