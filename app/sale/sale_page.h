#pragma once

class QWidget;

namespace secondpull::app {

class Page;
class Session;

/// For sale: what stands out front and what is ready to be listed, one machine at a time with its asking
/// price, its offers and its sale; and who comes when. Object names: salePage, saleView, saleFilter,
/// saleTable, saleComing, and those of MachinePanel and of the forms.
Page* makeSalePage(Session& session, QWidget* parent);

}  // namespace secondpull::app
