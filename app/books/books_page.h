#pragma once

class QWidget;

namespace secondpull::app {

class Page;
class Session;

/// The Books: what every machine that is gone earned, singly and in groups, as a table and as charts.
/// Object names: booksTable, booksGroups, booksGroupBy, booksFilter, booksAll (back from one group),
/// booksBars, booksWaterfall, booksNoProfit, and the figures booksTotalGross, booksTotalProfit,
/// booksTotalHours, booksTotalPay (of the rows shown), booksGross, booksProfit, booksPay (of the row chosen).
Page* makeBooksPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
