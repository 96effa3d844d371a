#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/result.h"
#include "core/shop/change.h"

namespace secondpull {

/// A person named on a form: one that is known, or the name of one to be added with the same action. Neither:
/// nobody.
struct PersonChoice {
  std::optional<PersonId> known;
  std::string new_name;
};

/// One machine as it is logged. An empty tag gets the next free number (next_tag).
struct NewMachine {
  std::string tag;
  MachineKind kind = MachineKind::push;
  std::string make, model, model_number, serial, engine;
  std::optional<int> year;
  std::optional<Tenths> deck_in;
  std::string symptom;
  std::string condition;
  std::optional<Money> value_then;
  std::string note;
};

/// Machines that came in together: one, or a lot for one price.
struct NewAcquisition {
  Date date{};
  Source source = Source::curb;
  PersonChoice from;
  Money price;
  Money pickup_cost;
  std::optional<Money> giver_basis;
  bool opening = false;
  std::optional<Tenths> miles;  ///< there and back: becomes a trip of the acquisition
  std::string destination;
  std::optional<Minutes> minutes;  ///< fetching it: becomes labour of the acquisition, `pickup`
  std::string note;
  std::vector<NewMachine> machines;
};

/// The next tag: one above the largest tag that is a whole number, "1" in a shop without one.
std::string next_tag(const Shop& shop);

/// Logs an acquisition with its machines: "Logged #61" or "Logged a lot of 3: #61 to #63".
Result<Change> log_acquisition(const Shop& shop, const NewAcquisition& acquisition);

/// Changes the facts of a machine (its id and acquisition stay); the title names what changed.
Result<Change> edit_machine(const Shop& shop, const Machine& changed);
Result<Change> edit_acquisition(const Shop& shop, const Acquisition& changed);
/// Removes a machine logged by mistake and all its lines, and its acquisition if it was the last of it; the
/// find that it was bought from, if any, is open again.
/// Refused with a sentence while other machines' records depend on it (its parts were fitted elsewhere).
Result<Change> remove_machine(const Shop& shop, MachineId machine);

}  // namespace secondpull
