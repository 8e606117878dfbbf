// The sources of the offline pages, embedded when the build is configured, and how a page is put together from them.
#pragma once

#include <map>
#include <string>

namespace evenpull::viz {

/// Files of viz/page by name.
extern const char* const page_plan_html;
extern const char* const page_plan_css;
extern const char* const page_unpack_js;
extern const char* const page_ticks_js;
extern const char* const page_readings_js;
extern const char* const page_log_file_js;
extern const char* const page_panel_inks_js;
extern const char* const page_panel_data_js;
extern const char* const page_panel_view_js;
extern const char* const page_plan_js;
extern const char* const page_lesson_html;
extern const char* const page_lesson_css;
extern const char* const page_lesson_js;

/// Puts the values in the places marked {{name}}. A mark without a value, or a value without a mark, is a mistake of
/// ours (std::logic_error).
std::string filled(const std::string& text, const std::map<std::string, std::string>& values);

/// Text for use between tags (HTML, SVG) or in an attribute in double quotes.
std::string escaped(const std::string& text);

/// Writes aside and renames. Throws CannotWriteFile that names the file.
void write_whole(const std::string& path, const std::string& text);

}  // namespace evenpull::viz
