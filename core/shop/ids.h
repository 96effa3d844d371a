#pragma once

#include <cstdint>

namespace secondpull {

// An identifier is the key of a row: given once by the shop, never changed, never used again for another
// record. The type beneath is `long long`, which is 64 bits wherever the program builds and which the
// window's signals can carry.
enum class PersonId : long long {};
enum class AcquisitionId : long long {};
enum class MachineId : long long {};
enum class FaultId : long long {};
enum class FindingId : long long {};
enum class LabourId : long long {};
enum class PartId : long long {};
enum class OrderId : long long {};
enum class OrderLineId : long long {};
enum class HarvestId : long long {};
enum class FittedId : long long {};
enum class MaterialId : long long {};
enum class ListingId : long long {};
enum class OfferId : long long {};
enum class SaleId : long long {};
enum class ReturnId : long long {};
enum class AllowanceId : long long {};
enum class PartSaleId : long long {};
enum class TaxPaidId : long long {};
enum class DisposalId : long long {};
enum class TripId : long long {};
enum class ExpenseId : long long {};
enum class PhotoId : long long {};
enum class ClosedYearId : long long {};
enum class KeptFigureId : long long {};
enum class FindId : long long {};
enum class FindAnswerId : long long {};
enum class OwnNumberId : long long {};
enum class KnowledgeEditId : long long {};
enum class ForecastId : long long {};
enum class ForecastCauseId : long long {};
enum class ListingTextId : long long {};
enum class DepositId : long long {};

template <class Id>
constexpr std::int64_t number(Id id) {
  return static_cast<std::int64_t>(id);
}

}  // namespace secondpull
