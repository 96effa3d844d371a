#pragma once

#include <QString>

#include "core/planning/sale_outlook.h"

namespace secondpull::app {

class Session;

// What the For sale screen says of an outlook. The answers to "why?" are rich text; statistics' own words
// stand there alone.

QString whyAsk(const Session& session, const planning::SaleOutlook& outlook);
QString whyDays(const Session& session, const planning::SaleOutlook& outlook);
QString whyFloor(const Session& session, const planning::SaleOutlook& outlook);
QString whyHold(const Session& session, const planning::SaleOutlook& outlook);

/// "about 9 days"
QString aboutDays(double days);
/// What the price rests on: own sales, or the knowledge base alone.
QString restsOn(const planning::SaleOutlook& outlook);
/// "If nobody has bought it: $135 from 12 May, $125 from 26 May." Empty if the price stays.
QString dropsInWords(const Session& session, const planning::SaleOutlook& outlook);

/// An amount in whole units as money of the shop, to its smallest unit.
Money asMoney(double units, const Currency& currency);

}  // namespace secondpull::app
