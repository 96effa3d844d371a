#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"
#include "core/shop/intake.h"

namespace secondpull {

// Machines that were seen and are not in the shop: from the first look to the purchase, or to nothing. Fields
// of problems are called as the members of Find and FindAnswer.

/// What a seller said to the question of a test.
struct SellerSaid {
  std::string test;
  std::string outcome;
};

/// A find as it is noted.
struct NewFind {
  Date date{};  ///< seen
  MachineKind kind = MachineKind::push;
  std::string make, model;
  std::optional<int> year;
  std::string symptom;             ///< empty: not known
  Money asking;                    ///< zero: free
  std::optional<Tenths> miles;     ///< there and back
  std::optional<Minutes> minutes;  ///< to fetch it
  Money pickup_cost;
  std::string place;  ///< where it stands, or who has it
  std::string note;
  std::vector<SellerSaid> said;  ///< so far, each test once
};
/// "Noted Tarnwick TW-2, asking $40".
Result<Change> note_find(const Shop& shop, const NewFind& find);

/// Puts changed facts in the place of the find's; the title names what changed, and where nothing did the
/// change is empty. How a bought find ended is not among them; another can be opened again by taking its end
/// away, and is bought by buy_find alone.
Result<Change> change_find(const Shop& shop, const Find& changed);

/// What the seller said to the question of a test, once for each test: a second answer takes the place of the
/// first, an empty one takes it back, the same one again changes nothing. Refused once the machine is bought:
/// then it is a finding.
Result<Change> answer_find(const Shop& shop, FindId find, Date date, const std::string& test,
                           const std::string& outcome);

/// Ends a find that came to nothing.
/// @param how   passed on or gone; a find is bought with buy_find
/// @param note  why; put behind the note that is there
Result<Change> pass_on_find(const Shop& shop, FindId find, Date date, FindEnd how, const std::string& note);

/// How a find was bought; the machine's facts are those of the find.
struct BuyFind {
  Date date{};
  Source source = Source::private_sale;
  PersonChoice from;
  Money price;
  Money pickup_cost;
  std::optional<Money> giver_basis;  ///< gifts alone
  std::optional<Tenths> miles;       ///< there and back: a trip to the find's place
  std::optional<Minutes> minutes;    ///< fetching it
  std::string tag;                   ///< empty: the next free number
  std::string note;                  ///< of the acquisition
};
/// Takes the find in, one action: what log_acquisition does, the find's end, a fault with its symptom if that
/// is known, and each answer of the seller as a finding about that fault. "Bought Tarnwick TW-2 as #61 for
/// $40". A find that was passed on or gone can be bought after all. Refused as log_acquisition refuses, and
/// for a find that is bought already ("find") or was seen later ("date").
Result<Change> buy_find(const Shop& shop, FindId find, const BuyFind& bought);

}  // namespace secondpull
