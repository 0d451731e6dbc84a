#include "render/template.hpp"

namespace footroom::render {
namespace {

std::string_view without_blanks(std::string_view text) {
  const auto begin = text.find_first_not_of(" \t\r\n");
  if (begin == text.npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t\r\n") - begin + 1);
}

}  // namespace

Template::Template(const std::string& text, Escape escape) : escape_(escape) {
  using Kind = Part::Kind;
  struct Open {
    std::size_t part;
    std::size_t at;
  };
  std::vector<Open> open;
  const auto add = [&](Kind kind, std::string_view what) {
    parts_.push_back({kind, std::string(what), what.find('.'), 0});
  };
  const auto add_text = [&](std::string_view plain) {
    while (!plain.empty()) {
      const auto line = plain.substr(0, plain.find('\n'));
      if (!line.empty()) add(Kind::text, line);
      if (line.size() == plain.size()) return;
      add(Kind::line_end, "\n");
      plain.remove_prefix(line.size() + 1);
    }
  };
  for (std::size_t done = 0; done < text.size();) {
    const std::size_t at = text.find("{{", done);
    add_text(std::string_view(text).substr(done, at == text.npos ? at : at - done));
    if (at == text.npos) break;
    const bool plain = text.compare(at, 3, "{{{") == 0;
    const std::string_view closing = plain ? "}}}" : "}}";
    const std::size_t begin = at + closing.size();
    const std::size_t end = text.find(closing, begin);
    if (end == text.npos) throw Broken("Unclosed tag", at);
    std::string_view name = without_blanks(std::string_view(text).substr(begin, end - begin));
    const char sign = plain || name.empty() ? '\0' : name.front();
    if (sign == '#' || sign == '^' || sign == '/') name = without_blanks(name.substr(1));
    done = end + closing.size();
    switch (sign) {
      case '#':
      case '^':
        open.push_back({parts_.size(), at});
        add(sign == '#' ? Kind::section : Kind::inverted, name);
        break;
      case '/':
        if (open.empty()) throw Broken("Unopened section \"" + std::string(name) + "\"", at);
        if (parts_[open.back().part].text != name)
          throw Broken("Unclosed section \"" + parts_[open.back().part].text + "\"",
                       open.back().at);
        parts_[open.back().part].end = parts_.size();
        open.pop_back();
        break;
      case '>':  // included before
        break;
      default:
        add(plain ? Kind::plain : Kind::escaped, name);
    }
  }
  if (!open.empty())
    throw Broken("Unclosed section \"" + parts_[open.back().part].text + "\"", open.back().at);
}

/// One rendering: what is in reach, and the text so far.
class Template::Rendering {
 public:
  Rendering(const std::vector<Part>& parts, Escape escape, const Data& data)
      : parts_(parts), escape_(escape), reach_{&data} {
    out_.reserve(1 << 14);
  }

  std::string whole() {
    write(0, parts_.size());
    end_line({});
    return std::move(out_);
  }

 private:
  void write(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      const Part& part = parts_[i];
      switch (part.kind) {
        case Part::Kind::text:
          out_ += part.text;
          break;
        case Part::Kind::line_end:
          end_line(part.text);
          break;
        case Part::Kind::escaped:
        case Part::Kind::plain:
          write_value(part);
          break;
        case Part::Kind::section:
        case Part::Kind::inverted:
          write_section(part, i + 1);
          i = part.end - 1;
          break;
      }
    }
  }

  void write_value(const Part& part) {
    const Data* value = find(part);
    const std::string* text = value ? value->text() : nullptr;
    if (!text) return;
    if (part.kind == Part::Kind::plain)
      out_ += *text;
    else
      out_ += escape_(*text);
  }

  void write_section(const Part& part, std::size_t first) {
    const Data* value = find(part);
    const bool nothing = !value || value->is_nothing();
    if (nothing != (part.kind == Part::Kind::inverted)) return;
    const std::vector<Data>* list = value ? value->list() : nullptr;
    if (!list || list->empty()) return write_once(value, first, part.end);
    for (const Data& one : *list) write_once(&one, first, part.end);
  }

  void write_once(const Data* value, std::size_t from, std::size_t to) {
    section_in_line_ = true;
    if (value) reach_.push_back(value);
    write(from, to);
    if (value) reach_.pop_back();
    section_in_line_ = true;
  }

  const Data* find(const Part& part) const {
    const std::string_view name = part.text;
    if (name == ".") return reach_.back();
    const std::string_view first = name.substr(0, part.dot);
    for (auto data = reach_.rbegin(); data != reach_.rend(); ++data) {
      const Data* found = (*data)->find(first);
      if (found && part.dot != name.npos) found = found->find(name.substr(part.dot + 1));
      if (found) return found;
    }
    return nullptr;
  }

  void end_line(std::string_view mark) {
    if (section_in_line_ && out_.find_first_not_of(" \t", line_) == out_.npos)
      out_.resize(line_);
    else
      out_ += mark;
    line_ = out_.size();
    section_in_line_ = false;
  }

  const std::vector<Part>& parts_;
  Escape escape_;
  std::vector<const Data*> reach_;
  std::string out_;
  std::size_t line_ = 0;  ///< where the line begins
  bool section_in_line_ = false;
};

std::string Template::render(const Data& data) const {
  return Rendering(parts_, escape_, data).whole();
}

}  // namespace footroom::render
