#include "core/books/event_name.h"

#include <fmt/format.h>

namespace secondpull {

namespace {

std::string_view kind_of(const AnyId& event) {
  struct Kind {
    std::string_view operator()(PersonId) const { return "person"; }
    std::string_view operator()(AcquisitionId) const { return "acquisition"; }
    std::string_view operator()(MachineId) const { return "machine"; }
    std::string_view operator()(FaultId) const { return "fault"; }
    std::string_view operator()(FindingId) const { return "finding"; }
    std::string_view operator()(LabourId) const { return "labour"; }
    std::string_view operator()(PartId) const { return "part"; }
    std::string_view operator()(OrderId) const { return "order"; }
    std::string_view operator()(OrderLineId) const { return "order line"; }
    std::string_view operator()(HarvestId) const { return "harvest"; }
    std::string_view operator()(FittedId) const { return "fitted"; }
    std::string_view operator()(MaterialId) const { return "material"; }
    std::string_view operator()(ListingId) const { return "listing"; }
    std::string_view operator()(OfferId) const { return "offer"; }
    std::string_view operator()(SaleId) const { return "sale"; }
    std::string_view operator()(ReturnId) const { return "return"; }
    std::string_view operator()(AllowanceId) const { return "allowance"; }
    std::string_view operator()(PartSaleId) const { return "part sold"; }
    std::string_view operator()(TaxPaidId) const { return "tax paid"; }
    std::string_view operator()(DisposalId) const { return "disposal"; }
    std::string_view operator()(TripId) const { return "trip"; }
    std::string_view operator()(ExpenseId) const { return "expense"; }
    std::string_view operator()(PhotoId) const { return "photo"; }
    std::string_view operator()(ClosedYearId) const { return "closed year"; }
    std::string_view operator()(KeptFigureId) const { return "kept figure"; }
    std::string_view operator()(FindId) const { return "find"; }
    std::string_view operator()(FindAnswerId) const { return "answer"; }
    std::string_view operator()(OwnNumberId) const { return "own number"; }
    std::string_view operator()(ForecastId) const { return "forecast"; }
    std::string_view operator()(ForecastCauseId) const { return "chance"; }
    std::string_view operator()(ListingTextId) const { return "listing text"; }
    std::string_view operator()(DepositId) const { return "deposit"; }
    std::string_view operator()(KnowledgeEditId) const { return "own entry"; }
  };
  return std::visit(Kind{}, event);
}

}  // namespace

std::string event_name(const Shop& shop, const AnyId& event) {
  const std::string identifier = std::visit(
      [&](auto id) {
        const auto* const record = shop.find(id);
        if constexpr (requires { record->code; })
          if (record != nullptr) return record->code;
        if constexpr (requires { record->tag; })
          if (record != nullptr) return record->tag;
        return std::to_string(number(id));
      },
      event);
  return fmt::format("{} {}", kind_of(event), identifier);
}

}  // namespace secondpull
