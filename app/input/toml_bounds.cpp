#include "app/input/toml_bounds.hpp"

#include "app/input/document.hpp"
#include "app/text/most.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace evenpull {
namespace {

/// Walks over the text once. What is no TOML is walked over somehow: the parser complains of it afterwards.
class Look {
 public:
  Look(std::string_view text, const std::string& file, std::size_t most_values)
      : text_(text), file_(file), most_values_(most_values) {}

  void run() {
    while (at_ < text_.size()) step();
  }

 private:
  std::string_view text_;
  const std::string& file_;
  std::size_t most_values_;
  std::size_t at_ = 0, line_start_ = 0;
  int line_ = 1;
  std::size_t depth_ = 0, dots_ = 0, values_ = 0, word_ = 0;  ///< word_: letters since the last mark of punctuation
  std::size_t key_start_ = 0;
  std::string key_, header_;

  [[noreturn]] void refuse(const std::string& sentence) const {
    const auto column = static_cast<int>(at_ - line_start_) + 1;
    throw CaseFileError(file_, {line_, column}, header_.empty() || key_.empty() ? header_ + key_ : header_ + "." + key_,
                        sentence);
  }

  char now(std::size_t ahead = 0) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }

  void new_line() {
    ++line_;
    line_start_ = at_ + 1;
  }

  void count_value() {
    if (++values_ > most_values_)
      refuse(fmt::format("the file holds more than {} keys and list entries, which is far more than a panel needs",
                         most_values_));
  }

  void end_word() { dots_ = word_ = 0; }

  void step() {
    switch (now()) {
      case '#':
        while (at_ < text_.size() && now() != '\n') ++at_;
        return;
      case '"':
      case '\'': string(now()); return;
      case '\n':
        new_line();
        if (depth_ == 0) key_.clear();
        [[fallthrough]];
      case ',':
        if (now() == ',') count_value();
        end_word();
        key_start_ = at_ + 1;
        break;
      case '[':
      case '{': open(); break;
      case ']':
      case '}':
        if (depth_ > 0) --depth_;
        end_word();
        break;
      case '=': take_key(); break;
      case '.':
        if (++dots_ >= most::key_parts)
          refuse(fmt::format("a key has more than {} parts between dots; no key of a case has more than 4",
                             most::key_parts));
        break;
      case ' ':
      case '\t':
      case '\r': break;
      default:
        if (++word_ > most::string_letters)
          refuse(
              fmt::format("a word has more than {} letters; is text in quotes missing its end?", most::string_letters));
    }
    ++at_;
  }

  void open() {
    const bool header = now() == '[' && depth_ == 0 &&
                        text_.substr(line_start_, at_ - line_start_).find_first_not_of(" \t") == std::string_view::npos;
    if (header) {
      const auto end = std::min(text_.find_first_of("]\n", at_), text_.size());
      const auto begin = std::min(text_.find_first_not_of('[', at_), end);
      header_ = text_.substr(begin, std::min(end - begin, most_shown));
    }
    if (header && now(1) != '[') count_value();  // of [[name]] the second bracket counts
    if (!header) count_value();
    if (++depth_ > most::nesting)
      refuse(fmt::format("brackets stand more than {} deep; no list of a case is deeper than 4", most::nesting));
    end_word();
    key_start_ = at_ + 1;
  }

  void take_key() {
    auto key = text_.substr(key_start_, std::min(at_ - key_start_, most_shown));
    while (!key.empty() && (key.front() == ' ' || key.front() == '\t')) key.remove_prefix(1);
    while (!key.empty() && (key.back() == ' ' || key.back() == '\t')) key.remove_suffix(1);
    if (depth_ == 0) key_ = key;
    count_value();
    end_word();
    key_start_ = at_ + 1;
  }

  /// Over a string; it counts from its first letter, so that the message points at its beginning.
  void string(char mark) {
    const bool long_form = now(1) == mark && now(2) == mark;
    const std::string end(long_form ? 3 : 1, mark);
    auto look = at_ + end.size();
    std::size_t letters = 0;
    while (look < text_.size() && text_.compare(look, end.size(), end) != 0) {
      if (!long_form && text_[look] == '\n') break;
      if (mark == '"' && text_[look] == '\\') ++look;
      if (look < text_.size()) look += std::max<std::size_t>(1, rune_at(text_, look).bytes);
      if (++letters > most::string_letters)
        refuse(fmt::format("this text has more than {} characters, which is the most; is its closing quote missing?",
                           most::string_letters));
    }
    if (text_.compare(look, end.size(), end) == 0) look += end.size();
    while (long_form && now(look - at_) == mark) ++look;  // quotes that belong to the text stand before the last three
    for (; at_ < look; ++at_)
      if (now() == '\n') new_line();
  }
};

}  // namespace

void check_bounds(const std::string& text, const std::string& file, std::size_t most_values) {
  Look(text, file, most_values).run();
}

}  // namespace evenpull
