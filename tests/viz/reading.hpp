// Helpers that read back what was written.
#pragma once

#include <string>
#include <vector>

namespace evenpull::reading {

/// A fresh folder that is removed at the end of the test.
class Folder {
 public:
  Folder();
  ~Folder();
  std::string operator/(const std::string& name) const { return path_ + "/" + name; }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

std::string bytes(const std::string& path);
/// Standard output of a shell command; fails the test when the command fails.
std::string output_of(const std::string& command);
/// Text of each page of a PDF, as a reader would select it.
std::vector<std::string> pages(const std::string& pdf);
/// Heights of all words [points] as pdftotext states their boxes; of a word set upwards it is the length.
std::vector<double> word_heights(const std::string& pdf);

/// A word of a page (from 1) and where it stands from its top and left [points].
struct Word {
  std::string text;
  double top = 0, bottom = 0, left = 0, right = 0;
  double x() const { return (left + right) / 2; }
  double y() const { return (top + bottom) / 2; }
};
std::vector<Word> words_of_page(const std::string& pdf, int page);
/// All words of all pages one after the other, as `pdftotext -raw` gives them in the order drawn, a space between.
std::string all_words(const std::string& pdf);
/// `text` with each stretch of spaces and line ends as one space.
std::string with_single_spaces(const std::string& text);

struct Image {
  int width = 0, height = 0;
  std::size_t colours = 0;  ///< how many different ones
  double white_share = 0;
};
Image image(const std::string& png);

}  // namespace evenpull::reading
