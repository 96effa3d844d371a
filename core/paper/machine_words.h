#pragma once

#include <string>
#include <vector>

#include "core/shop/records.h"

/// What stands on the shop's papers: words and figures, before anything is drawn.
namespace secondpull::paper {

/// "push mower", "lawn tractor"; "machine" for one of no kind of ours.
std::string kind_noun(MachineKind kind);

/// "Tarnwick TW-2 self-propelled mower": make, model and kind, as far as known.
std::string machine_name(const Machine& machine);

/// "21 in", "20.5 in"
std::string inches(Tenths width);

/// "model no. K21W-0452", "serial 66G84520", "engine Vantrell 160", "2016", "21 in cut": what is known.
std::vector<std::string> machine_facts(const Machine& machine);

/// The words with the separator between them; empty ones are left out.
std::string joined(const std::vector<std::string>& words, std::string_view separator);

}  // namespace secondpull::paper
