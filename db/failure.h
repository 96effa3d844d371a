#pragma once

#include <exception>
#include <filesystem>
#include <utility>

#include <SQLiteCpp/Exception.h>
#include <tl/expected.hpp>

#include "core/result.h"

namespace secondpull::db {

/// A problem on its way out of db's inner parts. SQLite's wrapper throws, so they throw too; at the edge of
/// Store guarded() makes a value of it. It never leaves db.
class Failure : public std::exception {
 public:
  explicit Failure(Problem problem) : problem_{std::move(problem)} {}
  const Problem& problem() const { return problem_; }
  const char* what() const noexcept override { return problem_.sentence.c_str(); }

 private:
  Problem problem_;
};

/// Says what an error of SQLite means for the person: a full disk, a damaged file, one in use.
Problem problem_of(const SQLite::Exception& error, const std::filesystem::path& file);
Problem problem_of(const std::filesystem::filesystem_error& error);

/// The result of `work`, or the problem that it threw. `file` is named where SQLite tells only a code.
template <class Work>
auto guarded(const std::filesystem::path& file, Work&& work) -> Result<decltype(work())> {
  try {
    if constexpr (std::is_void_v<decltype(work())>) {
      work();
      return {};
    } else {
      return work();
    }
  } catch (const Failure& failure) {
    return tl::unexpected{failure.problem()};
  } catch (const SQLite::Exception& error) {
    return tl::unexpected{problem_of(error, file)};
  } catch (const std::filesystem::filesystem_error& error) {
    return tl::unexpected{problem_of(error)};
  }
}

}  // namespace secondpull::db
