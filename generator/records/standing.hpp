#pragma once
#include <map>
#include <vector>

#include "records/model.hpp"

namespace footroom::records {

/// What the standing of a person depends on beside the entries about them.
struct Surroundings {
  std::map<Number, Session> sessions;       ///< those in effect that the person attended
  std::vector<Policy> policies;             ///< of their employer, in effect, later ones last
  std::optional<Date> employed_since = {};  ///< when the person was first recorded
};

/// When the person is due, for each course that they were trained in, have to be trained in again,
/// or that the employer's policy asks for; in the order of the courses.
///
/// Trained: attended a session to completion, or holds a certificate of prior training that the
/// employer found adequate; the last day counts. A retraining is done by a training that ends on
/// its day or later. Of a retraining and a passed interval the earlier day counts. Whoever left is
/// not due.
std::vector<Standing> standings_of(Number person, const std::vector<Entry>& effective,
                                   const Surroundings& surroundings);

}  // namespace footroom::records
