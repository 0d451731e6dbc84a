#include "records/missed_topics.hpp"

#include <map>
#include <utility>

namespace footroom::records {

std::vector<std::string> missed_topics(const std::vector<Numbered<Result>>& results) {
  struct Latest {
    std::pair<Date, Number> when = {};
    bool missed = false;
  };
  std::map<std::string, Latest> latest;
  for (const auto& result : results)
    for (const auto& topic : result.value.topics) {
      auto& known = latest[topic.topic];
      const std::pair when(result.value.day, result.number);
      if (when < known.when) continue;
      known = {when, topic.hundredths < topic.possible_hundredths};
    }
  std::vector<std::string> missed;
  for (const auto& [topic, one] : latest)
    if (one.missed) missed.push_back(topic);
  return missed;
}

}  // namespace footroom::records
