#pragma once
// Reading blueprints and course plans. What the bank's items and topics make of them is checked
// where a quiz is made.

#include "bank/element.hpp"
#include "bank/item.hpp"

namespace footroom::bank {

Blueprint read_blueprint(ElementReader& reader, pugi::xml_node root);
Course read_course(ElementReader& reader, pugi::xml_node root);

}  // namespace footroom::bank
