#include "cli/practice_terminal.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>

#include "grade/characters.hpp"
#include "notation/typeset.hpp"
#include "notation/unit.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {

using namespace tasks;

namespace {

using engine::Text;
using quiz::Kind;

constexpr std::size_t width = 78;

// A paragraph in lines of at most `width` columns: behind `first`, and the others behind as many
// blanks.
std::string wrapped(const std::string& first, const std::string& text) {
  const std::string indent(columns(first), ' ');
  std::string all;
  std::string line = first;
  bool begun = false;  // the line holds a word
  std::string word;
  const auto end_line = [&] {
    all += line + "\n";
    line = indent;
    begun = false;
  };
  const auto end_word = [&] {
    if (word.empty()) return;
    if (begun && columns(line) + 1 + columns(word) > width) end_line();
    line += begun ? " " + word : word;
    begun = true;
    word.clear();
  };
  for (const char c : text) {
    if (c != ' ' && c != '\n') {
      word += c;
      continue;
    }
    end_word();
    if (c == '\n') end_line();
  }
  end_word();
  if (begun) end_line();
  return all;
}

class TerminalPractice {
 public:
  TerminalPractice(const practice::Sitting& sitting, practice::Progress& progress,
                   const practice::Choice& choice, const practice::Face& face, std::uint64_t seed,
                   std::istream& in, std::ostream& out, bool echo)
      : sitting_(sitting),
        progress_(progress),
        choice_(choice),
        face_(face),
        seed_(seed),
        in_(in),
        out_(out),
        echo_(echo) {}

  void run() {
    write(
        say({"This is a training aid, not a design. The people and the figures are invented. On "
             "a real roof, follow the manufacturer's instructions, local codes, and a competent "
             "or qualified person.",
             "Esto es material de capacitación, no un diseño. Las personas y las cifras son "
             "inventadas. En un techo real, siga las instrucciones del fabricante, los códigos "
             "locales y a una persona competente o calificada."}));
    write(say({"An empty line: I do not know.  ?: the next worked step.  quit: the end.",
               "Una línea vacía: no sé.  ?: el paso siguiente de la solución.  salir: terminar."}));
    while (ask_one()) {
    }
    out_ << '\n'
         << fmt::format(
                fmt::runtime(say({"Questions: {}, right: {}\n", "Preguntas: {}, correctas: {}\n"})),
                progress_.sitting.size(), progress_.right);
  }

 private:
  std::string say(Text text) const { return std::string(text.in(face_.style.language)); }
  void write(const std::string& text) { write({}, text); }
  void write(const std::string& first, const std::string& text) {
    out_ << wrapped(first, plain(text));
  }

  /// False at the end.
  bool ask_one() {
    const bool open = progress_.open && !progress_.open->answered;
    if (!open) sitting_.next(progress_, choice_, face_, seed_);
    const quiz::Question question = sitting_.open_question(progress_, face_.style).question;
    show(question);
    for (;;) {
      out_ << prompt(question) << std::flush;
      const auto line = next_line();
      if (!line) return false;
      if (is_quit(*line)) return false;
      if (is_step(*line)) {
        show_step(question);
        continue;
      }
      const practice::Marked marked = sitting_.mark(progress_, *line, face_.style);
      if (marked.counted) {
        tell(marked);
        return wait(question);
      }
      write(marked.result.reason);
    }
  }

  /// Whether to go on.
  bool wait(const quiz::Question& question) {
    for (;;) {
      out_ << say({"\nEnter: next question, ?: worked step, quit > ",
                   "\nIntro: otra pregunta, ?: paso de la solución, salir > "})
           << std::flush;
      const auto line = next_line();
      if (!line || is_quit(*line)) return false;
      if (!is_step(*line)) return true;
      show_step(question);
    }
  }

  std::optional<std::string> next_line() {
    std::string line;
    if (!std::getline(in_, line)) {
      out_ << '\n';
      return std::nullopt;
    }
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (echo_) out_ << line << '\n';
    return line;
  }

  static bool is_quit(const std::string& line) {
    const std::string word = grade::lower_case(grade::plain_typing(line));
    return word == "quit" || word == "salir";
  }
  static bool is_step(const std::string& line) { return grade::plain_typing(line) == "?"; }

  std::string prompt(const quiz::Question& question) const {
    if (question.answer && !question.answer->unit_text.empty())
      return plain(say({"\nAnswer in ", "\nRespuesta en "}) + question.answer->unit_text + " > ");
    if (question.kind == Kind::order)
      return say({"\nThe letters in the right order > ", "\nLas letras en el orden correcto > "});
    if (question.kind == Kind::several_of)
      return say({"\nEvery right letter > ", "\nTodas las letras correctas > "});
    if (question.kind != Kind::number) return say({"\nOne letter > ", "\nUna letra > "});
    return say({"\nAnswer > ", "\nRespuesta > "});
  }

  void show(const quiz::Question& question) {
    out_ << '\n' << std::string(width, '-') << '\n';
    write(fmt::format("{} {} · {} · {} {}", say({"Question", "Pregunta"}), question.number,
                      question.topic_title, say({"level", "nivel"}), question.level));
    if (progress_.open->returned)
      write(say({"Again, because it was missed.", "Otra vez, porque antes no salió bien."}));
    write(question.title);
    out_ << '\n';
    write(question.stem);
    if (question.sheet_figure) {
      out_ << '\n';
      write(say({"Drawing: ", "Dibujo: "}) + question.sheet_figure->description);
    }
    if (!question.options.empty()) out_ << '\n';
    for (const quiz::Option& option : question.options)
      write("  " + option.letter + "  ", option.text);
  }

  void show_step(const quiz::Question& question) {
    if (progress_.open->shown >= static_cast<int>(question.steps.size())) {
      write(say({"There are no more steps.", "No hay más pasos."}));
      return;
    }
    const std::size_t index = sitting_.show_step(progress_, question, face_.style);
    const quiz::WorkedStep& step = question.steps[index];
    if (!step.says.empty()) write(fmt::format("  {}. ", index + 1), step.says);
    if (!step.line) return;
    write("     ", notation::to_text(step.line->symbols));
    write("       = ", notation::to_text(step.line->numbers));
    write("       = ", step.line->result);
  }

  void tell(const practice::Marked& marked) {
    const grade::QuestionResult& result = marked.result;
    out_ << '\n';
    write(outcome_text(result) + (result.read.empty() ? std::string() : " (" + result.read + ")"));
    if (!result.says.empty()) write(result.says);
    if (result.points < result.possible || result.outcome == grade::Outcome::empty)
      write(say({"Right answer: ", "Respuesta correcta: "}) + right_text(marked));
    for (const quiz::Option& option : marked.question.options)
      if (option.right && !option.says.empty()) write(option.letter + ": " + option.says);
    for (const quiz::LimitLine& limit : marked.question.limits)
      write("  ", fmt::format("{}: {} - {}{}", limit.name, limit.text, limit.citation,
                              unless_read(limit.status)));
    for (const quiz::SourceLine& source : marked.question.sources)
      write("  ", fmt::format("{} {}{}", say({"Source:", "Fuente:"}), source.citation,
                              source.citation == say(status_text(source.status))
                                  ? std::string()
                                  : unless_read(source.status)));
    for (const std::string& caution : marked.question.cautions)
      write("  ", say({"Take care: ", "Tenga cuidado: "}) + caution);
    if (marked.returns)
      write(fmt::format(fmt::runtime(say({"Comes back after {} other questions.",
                                          "Vuelve después de {} preguntas más."})),
                        *marked.returns));
  }

  std::string right_text(const practice::Marked& marked) const {
    std::string text = marked.result.right;
    const auto& answer = marked.question.answer;
    if (answer && answer->tolerance > 0)
      text += " ± " + notation::write_quantity_shortest(
                          answer->tolerance, *notation::find_unit(answer->unit), face_.style);
    return text;
  }

  std::string outcome_text(const grade::QuestionResult& result) const {
    switch (result.outcome) {
      case grade::Outcome::right:
        return say({"Right.", "Correcta."});
      case grade::Outcome::right_in_other_unit:
        return say({"Right, in another unit.", "Correcta, en otra unidad."});
      case grade::Outcome::right_without_unit:
        return say({"Right.", "Correcta."});
      case grade::Outcome::right_with_wrong_unit:
        return say(
            {"The number is right, the unit is wrong.", "El número es correcto, la unidad no."});
      case grade::Outcome::partly_right:
        return say({"Partly right.", "Correcta en parte."});
      case grade::Outcome::named_mistake:
      case grade::Outcome::general_mistake:
        return say({"Not right: a known mistake.", "No es correcta: un error conocido."});
      case grade::Outcome::empty:
        return say({"No answer.", "Sin respuesta."});
      case grade::Outcome::wrong:
      case grade::Outcome::unreadable:
        break;
    }
    return say({"Not right.", "No es correcta."});
  }

  std::string unless_read(const std::string& status) const {
    return status == "read" ? std::string() : " (" + say(status_text(status)) + ")";
  }

  const practice::Sitting& sitting_;
  practice::Progress& progress_;
  const practice::Choice& choice_;
  practice::Face face_;
  std::uint64_t seed_;
  std::istream& in_;
  std::ostream& out_;
  bool echo_;
};

}  // namespace

void practise_in_terminal(const practice::Sitting& sitting, practice::Progress& progress,
                          const practice::Choice& choice, const practice::Face& face,
                          std::uint64_t seed, std::istream& in, std::ostream& out, bool echo) {
  TerminalPractice(sitting, progress, choice, face, seed, in, out, echo).run();
}

}  // namespace footroom::cli
