#include "core/paper/tag.h"

#include "core/paper/machine_words.h"
#include "core/shop/describe.h"

namespace secondpull::paper {

Tag tag_of(const ByMachine::Lines& lines) {
  if (lines.machine == nullptr) return {};
  const std::string number = called(*lines.machine);
  Tag tag{.number = number,
          .machine = machine_name(*lines.machine),
          .symptom = lines.machine->symptom,
          .came = here_since(lines),
          .code = number};
  for (const Fault* fault : lines.faults)
    if (!fault->ended) tag.symptom = fault->symptom;
  return tag;
}

}  // namespace secondpull::paper
