#include "quiz/status_name.hpp"

namespace footroom::quiz {

std::string status_name(engine::Status status) {
  switch (status) {
    case engine::Status::read:
      return "read";
    case engine::Status::second_hand:
      return "second-hand";
    case engine::Status::from_memory:
      return "from-memory";
    case engine::Status::computed:
      return "computed";
    case engine::Status::common_practice:
      break;
  }
  return "common-practice";
}

}  // namespace footroom::quiz
