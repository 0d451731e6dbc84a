#include "quiz/maker.hpp"

namespace footroom::quiz {

std::string seat_name(int index) {
  std::string name;
  for (int rest = index; rest >= 0; rest = rest / 26 - 1)
    name.insert(name.begin(), static_cast<char>('A' + rest % 26));
  return name;
}

}  // namespace footroom::quiz
