#pragma once
// What the rooms of people share: a person's fields, addresses, and a long list in pages.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "desk/room.hpp"
#include "records/store.hpp"

namespace footroom::desk {

std::string person_address(records::Number person);  ///< "/people/4"
/// As text stands in the query of an address.
std::string in_address(const std::string& text);

/// Name, identity, employer and the day on which the person left. `store` may be null.
std::vector<Field> person_fields(const Call& call, records::Store* store,
                                 const records::Person& now);
/// What was sent; where it is not sound, the form says why. `person` is who is corrected, 0 where
/// someone is added.
records::Person sent_person(const Call& call, records::Store& store, Form& form,
                            records::Number person);

/// Sets `pager` for {{> pager.html}}.
void set_pager(const Call& call, std::size_t page, std::size_t pages,
               const std::function<std::string(std::size_t)>& address, mustache::data& data);

}  // namespace footroom::desk
