#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace secondpull::cli {

/// What a run of secondpull-cli gave.
struct Outcome {
  int status = -1;  ///< exit status; -1 if it was ended by a signal
  std::string out;
  std::string err;
};

/// A folder for one test, with the program to run in it. Relative paths are in the folder.
class Desk {
 public:
  Desk();
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  Outcome run(const std::vector<std::string>& arguments) const;
  /// The same for any program.
  Outcome run_program(const std::string& program, const std::vector<std::string>& arguments) const;
  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
  void write(const std::string& name, const std::string& text) const;  ///< makes its folders too
  std::string read(const std::filesystem::path& file) const;
  bool has(const std::string& name) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace secondpull::cli
