#include "core/lessons/hour_worth.h"

#include <vector>

namespace secondpull::lessons {

HourWorth hour_worth(const Books& books, const planning::HourValue& ahead) {
  std::vector<const MachineFigures*> machines;
  for (const MachineFigures& figures : books.machines())
    machines.push_back(&figures);
  HourWorth worth{.ahead = ahead, .said = books.shop().settings.hour_value, .so_far = earned(machines)};
  for (const Labour& labour : books.shop().all<Labour>())
    if (!labour.machine && !labour.acquisition) worth.shop_in_general += labour.minutes;
  worth.with_the_shop = per_hour(worth.so_far.profit, worth.so_far.minutes + worth.shop_in_general);
  return worth;
}

}  // namespace secondpull::lessons
