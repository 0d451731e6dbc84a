#pragma once
// Items for tests, put together from lines so that a test can say which line is wrong.

#include <string>

namespace footroom::tests {

/// A small item without a defect. Its lines: 1 item, 2 title, 3 draw ... as numbered here.
inline std::string small_item() {
  return R"(<item xmlns="urn:footroom:bank" id="sum" topic="roof" level="2" kind="number">
<title><en>Sum</en><es>Suma</es></title>
<draw name="part" symbol="a">
<meaning><en>part</en><es>parte</es></meaning>
<us unit="ft" from="1" to="20" step="0.5"/>
<si unit="m" from="1" to="20" step="0.5"/>
</draw>
<let name="whole" symbol="b" value="part * 3">
<meaning><en>whole</en><es>total</es></meaning>
<us unit="ft" places="1"/>
<si unit="m" places="1"/>
</let>
<stem><en>One part is {part}. How long is the whole?</en><es>Una parte mide {part}. ¿Cuánto mide el total?</es></stem>
<answer value="whole">
<us unit="ft" places="1"/>
<si unit="m" places="1"/>
</answer>
<mistake id="one" value="part * 2"><en>Two are not three.</en><es>Dos no son tres.</es></mistake>
<step of="whole"/>
</item>
)";
}

/// `text` with the first `was` replaced.
inline std::string replaced(std::string text, const std::string& was, const std::string& by) {
  const auto at = text.find(was);
  if (at == text.npos) return "not found: " + was;
  return text.replace(at, was.size(), by);
}

}  // namespace footroom::tests
