#pragma once

#include "core/shop/ids.h"

class QWidget;

namespace secondpull::app {

class Form;
class Session;

/// Sells pieces of a part by themselves. Field names: "sellPart.quantity", "sellPart.price",
/// "sellPart.buyer", "sellPart.sales_tax", "sellPart.fee", "sellPart.place", "sellPart.date".
Form* sellPartForm(Session& session, PartId part, QWidget* parent);

/// Takes in pieces that turned up. Field names: "found.part", "found.quantity", "found.price", "found.date".
Form* foundPartForm(Session& session, QWidget* parent);

}  // namespace secondpull::app
