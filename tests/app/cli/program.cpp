#include "tests/app/cli/program.h"

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <sys/wait.h>
#include <system_error>

namespace secondpull::cli {
namespace {

std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text)
    out += c == '\'' ? std::string{"'\\''"} : std::string{c};
  return out + "'";
}

}  // namespace

Desk::Desk() {
  std::string pattern = (std::filesystem::temp_directory_path() / "secondpull-cli-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("cannot make a temporary folder");
  folder_ = pattern;
}

Desk::~Desk() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

Outcome Desk::run(const std::vector<std::string>& arguments) const {
  return run_program(SECONDPULL_CLI, arguments);
}

Outcome Desk::run_program(const std::string& program, const std::vector<std::string>& arguments) const {
  std::string command = "cd " + quoted(folder_.string()) + " && " + quoted(program);
  for (const std::string& argument : arguments)
    command += " " + quoted(argument);
  command += " >.out 2>.err";
  const int ended = std::system(command.c_str());
  return {WIFEXITED(ended) ? WEXITSTATUS(ended) : -1, read(folder_ / ".out"), read(folder_ / ".err")};
}

void Desk::write(const std::string& name, const std::string& text) const {
  std::filesystem::create_directories((folder_ / name).parent_path());
  std::ofstream out{folder_ / name, std::ios::binary};
  out << text;
  if (!out.flush()) throw std::runtime_error("cannot write " + name);
}

std::string Desk::read(const std::filesystem::path& file) const {
  std::ifstream in{file, std::ios::binary};
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>{in}, {}};
}

bool Desk::has(const std::string& name) const {
  return std::filesystem::exists(folder_ / name);
}

}  // namespace secondpull::cli
