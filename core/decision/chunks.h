#pragma once

#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace secondpull::decision {

/// A row of values that grows without moving what is in it and without ever holding it twice.
template <class T>
class Chunks {
 public:
  T& operator[](std::size_t i) { return chunks_[i / chunk][i % chunk]; }
  const T& operator[](std::size_t i) const { return chunks_[i / chunk][i % chunk]; }
  std::size_t size() const { return size_; }
  std::size_t bytes() const { return chunks_.size() * chunk * sizeof(T); }
  /// The new value's place.
  std::size_t add(T value) {
    const std::size_t place = add_row(1);
    (*this)[place] = std::move(value);
    return place;
  }
  /// The first place of so many values next to each other, at most `chunk` of them.
  std::size_t add_row(std::size_t count) {
    if (size_ % chunk + count > chunk) size_ = (size_ / chunk + 1) * chunk;
    while (chunks_.size() * chunk < size_ + count)
      chunks_.push_back(std::make_unique_for_overwrite<T[]>(chunk));
    return std::exchange(size_, size_ + count);
  }
  /// Empties the row and keeps its room.
  void clear() { size_ = 0; }

  static constexpr std::size_t chunk = std::size_t{1} << 12U;

 private:
  std::vector<std::unique_ptr<T[]>> chunks_;
  std::size_t size_ = 0;
};

}  // namespace secondpull::decision
