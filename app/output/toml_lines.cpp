#include "app/output/toml_lines.hpp"

#include <algorithm>

namespace evenpull {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t'; }

class TomlWalk {
 public:
  explicit TomlWalk(const std::string& text) : text_(text) {}

  std::vector<TomlStatement> all() {
    std::vector<TomlStatement> out;
    std::vector<std::string> table;
    while (at_ < text_.size()) {
      TomlStatement s;
      s.begin = at_;
      skip_space();
      if (end_of_line()) {
        s.kind = TomlStatement::Kind::blank;
      } else if (text_[at_] == '#') {
        s.kind = TomlStatement::Kind::comment;
      } else if (text_[at_] == '[') {
        const bool list = text_.compare(at_, 2, "[[") == 0;
        at_ += list ? 2 : 1;
        table = keys();
        s.kind = list ? TomlStatement::Kind::list_header : TomlStatement::Kind::header;
      } else {
        s.kind = TomlStatement::Kind::pair;
        s.key = keys();
        ++at_;  // =
        skip_space();
        s.value_begin = at_;
        s.value_end = end_of_value();
      }
      to_next_line();
      s.end = at_;
      s.table = table;
      out.push_back(std::move(s));
    }
    return out;
  }

 private:
  bool end_of_line() const { return at_ >= text_.size() || text_[at_] == '\n' || text_.compare(at_, 2, "\r\n") == 0; }
  void skip_space() {
    while (at_ < text_.size() && is_space(text_[at_])) ++at_;
  }
  void to_next_line() {
    at_ = std::min(text_.find('\n', at_), text_.size());
    if (at_ < text_.size()) ++at_;
  }
  bool begins(const char* with) const { return text_.compare(at_, std::string(with).size(), with) == 0; }

  // Dotted keys up to ] or =.
  std::vector<std::string> keys() {
    std::vector<std::string> out;
    for (;;) {
      skip_space();
      if (at_ < text_.size() && (text_[at_] == '"' || text_[at_] == '\'')) {
        const std::size_t from = at_ + 1;
        skip_string();
        out.push_back(text_.substr(from, at_ - 1 - from));
      } else {
        const std::size_t from = at_;
        at_ = std::min(text_.find_first_of(" \t.=]\r\n", at_), text_.size());
        out.push_back(text_.substr(from, at_ - from));
      }
      skip_space();
      if (at_ >= text_.size() || text_[at_] != '.') return out;
      ++at_;
    }
  }

  // From the quote that begins a text to behind the one that ends it.
  void skip_string() {
    const char quote = text_[at_];
    const std::string three(3, quote);
    const bool long_one = text_.compare(at_, 3, three) == 0;
    at_ += long_one ? 3 : 1;
    while (at_ < text_.size()) {
      if (quote == '"' && text_[at_] == '\\') {
        at_ += 2;
      } else if (long_one ? text_.compare(at_, 3, three) == 0 : text_[at_] == quote) {
        at_ += long_one ? 3 : 1;
        while (long_one && at_ < text_.size() && text_[at_] == quote) ++at_;  // up to two quotes of its own
        return;
      } else {
        ++at_;
      }
    }
    at_ = text_.size();
  }

  // Where the value ends; leaves the walk on its last line.
  std::size_t end_of_value() {
    int depth = 0;
    std::size_t end = at_;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '"' || c == '\'') {
        skip_string();
        end = at_;
        continue;
      }
      if (c == '#') {
        if (depth == 0) return end;
        at_ = std::min(text_.find('\n', at_), text_.size());
        continue;
      }
      if (c == '\n' && depth == 0) return end;
      depth += (c == '[' || c == '{') - (c == ']' || c == '}');
      ++at_;
      if (!is_space(c) && c != '\r' && c != '\n') end = at_;
    }
    return end;
  }

  const std::string& text_;
  std::size_t at_ = 0;
};

}  // namespace

std::vector<std::string> TomlStatement::path() const {
  auto out = table;
  out.insert(out.end(), key.begin(), key.end());
  return out;
}

std::vector<TomlStatement> toml_statements(const std::string& text) { return TomlWalk(text).all(); }

std::vector<std::string> dotted(const std::string& name) {
  std::vector<std::string> out;
  for (std::size_t from = 0; from <= name.size();) {
    const auto dot = std::min(name.find('.', from), name.size());
    out.push_back(name.substr(from, dot - from));
    from = dot + 1;
  }
  return out;
}

bool begins_with(const std::vector<std::string>& path, const std::vector<std::string>& with) {
  return path.size() >= with.size() && std::equal(with.begin(), with.end(), path.begin());
}

}  // namespace evenpull
