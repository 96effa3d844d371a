#pragma once

#include <QWidget>

namespace secondpull::app {

class Page;
class Session;

/// Spent: any money that went out. The amount, where, a photo of the paper, and last of all what it was for:
/// a machine (a material of it), an order (parts for the shelf), or a cost of the shop. One action.
///
/// Object names: page "spentPage", form "yard.spent"; "amountEdit", "wherePicker", "paperDrop" with
/// "choosePaper" and "dropPaper" (takes it away again), "forRow"; for a machine "machinePicker",
/// "whatEdit"; for an order "partPicker", "quantityEdit", "inHandRow", "machinePicker"; for the shop
/// "categoryEdit", "noteEdit"; "dayEdit", "save".
Page* makeSpentPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
