#pragma once

#include "core/shop/ids.h"

class QWidget;

namespace secondpull::app {

class Form;
class Session;

/// A form that places an order: supplier, day, freight, tax, and rows of parts, their prices pre-filled with
/// the last ones. Under them it says what the order comes to. Object names: "order.supplier", "order.date",
/// "order.arrived", "order.freight", "order.tax", "orderTotal", and those of PartRows.
Form* orderForm(Session& session, QWidget* parent);

/// A form that takes in an order: the day it came, freight and tax as on the bill. Object names:
/// "receive.arrived", "receive.freight", "receive.tax".
Form* receiveForm(Session& session, OrderId order, QWidget* parent);

}  // namespace secondpull::app
