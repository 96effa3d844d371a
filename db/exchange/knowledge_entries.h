#pragma once

#include <string>

#include "core/learning/knowledge_base.h"
#include "db/exchange/json_text.h"

namespace secondpull::db {

// The entries of the knowledge base, each read by itself: its fields, its own figures, where it comes from.
// What is wrong is told to the place (JsonPlace). `id` is left empty where it stands outside the entry; what
// an entry says of others is for who has them all (knowledge_json.h).

learning::Symptom read_symptom(const JsonPlace& place);
learning::Cause read_cause(const JsonPlace& place);
learning::Test read_test(const JsonPlace& place);
learning::Repair read_repair(const JsonPlace& place);
learning::PieceOfWork read_piece_of_work(const JsonPlace& place);
learning::PartToPull read_part(const JsonPlace& place);
/// The words beside one of those six, a kind of machine or a figure of the trade.
learning::EntryText read_text(const JsonPlace& place);

/// @param id  the word of a kind of machine
learning::KindFigures read_kind(const std::string& id, const JsonPlace& place);
/// One of the figures of the trade as a whole: `id` says which.
void read_trade(const std::string& id, const JsonPlace& place, learning::Knowledge& out);

learning::Caution read_caution(const JsonPlace& place);
learning::Measurement read_measurement(const JsonPlace& place);
learning::SaleCheck read_check(const JsonPlace& place);
learning::Publication read_publication(const JsonPlace& place);

}  // namespace secondpull::db
