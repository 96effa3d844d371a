#pragma once

#include <cstdint>

namespace secondpull {

// An identifier is the key of a row: given once by the shop, never changed, never used again for another
// record.
enum class PersonId : std::int64_t {};
enum class AcquisitionId : std::int64_t {};
enum class MachineId : std::int64_t {};
enum class FaultId : std::int64_t {};
enum class FindingId : std::int64_t {};
enum class LabourId : std::int64_t {};
enum class PartId : std::int64_t {};
enum class OrderId : std::int64_t {};
enum class OrderLineId : std::int64_t {};
enum class HarvestId : std::int64_t {};
enum class FittedId : std::int64_t {};
enum class MaterialId : std::int64_t {};
enum class ListingId : std::int64_t {};
enum class OfferId : std::int64_t {};
enum class SaleId : std::int64_t {};
enum class ReturnId : std::int64_t {};
enum class AllowanceId : std::int64_t {};
enum class PartSaleId : std::int64_t {};
enum class TaxPaidId : std::int64_t {};
enum class DisposalId : std::int64_t {};
enum class TripId : std::int64_t {};
enum class ExpenseId : std::int64_t {};
enum class PhotoId : std::int64_t {};

template <class Id>
constexpr std::int64_t number(Id id) {
  return static_cast<std::int64_t>(id);
}

}  // namespace secondpull
