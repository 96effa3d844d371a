#pragma once

#include "app/frame/page.h"

namespace secondpull::app {

/// The Shelf: parts on hand and on order, orders, and parting out a donor.
///
/// Object names: "shelfPage", "shelfWords" (which of the three is shown); the rest in the headers of its
/// panels (parts_panel, orders_panel, order_form, part_out_panel, part_rows).
/// Keys: F5 parts, F6 orders, F7 part out a machine, F4 facts of the part, F8 an order is here, F9 write a
/// part off, Ctrl+N place an order.
Page* makeShelfPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
