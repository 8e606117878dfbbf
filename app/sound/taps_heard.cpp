#include "app/sound/taps_heard.hpp"

#include <fftw3.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

namespace evenpull {
namespace {

// All judgement, tried on made sounds (tests/app/test_taps_heard.cpp).
constexpr double frame = 0.005;                            // s, over which loudness is taken
constexpr double quiet_before = 0.03;                      // s
constexpr double leap = 3;                                 // of the loudness over what was before and over the usual
constexpr double of_loudest = 0.2;                         // softer leaps are no taps
constexpr double between_taps = 0.2;                       // s
constexpr double after_the_blow = 0.012;                   // s: what the finger does to the cloth
constexpr double longest_ring = 0.6, shortest_ring = 0.1;  // s
constexpr double silence = 1e-4;                           // of full scale
constexpr double most_clipped = 2e-4;                      // share of the samples
constexpr int padded = 8;                                  // times the window, with zeros
constexpr double clear_of_noise = 30;                      // times the median power
constexpr double of_strongest = 0.04;                      // of the power of the strongest peak
constexpr double noise_to = 1500;                          // Hz: up to there noise is taken
constexpr double pi = 3.14159265358979323846;
constexpr double to_sigma = 1.4826;  // of a normal distribution, from the median deviation

double median(std::vector<double> x) {
  const auto middle = x.begin() + static_cast<std::ptrdiff_t>(x.size() / 2);
  std::nth_element(x.begin(), middle, x.end());
  return *middle;
}

std::vector<double> without_mean(const std::vector<double>& x) {
  double mean = 0;
  for (const double v : x) mean += v / static_cast<double>(x.size());
  std::vector<double> out;
  for (const double v : x) out.push_back(v - mean);
  return out;
}

std::size_t samples_in(double seconds, double rate) { return static_cast<std::size_t>(std::lround(seconds * rate)); }

// Where taps begin; the loudest place where nothing leaps (a recording cut close).
std::vector<std::size_t> blows(const std::vector<double>& x, double rate) {
  const std::size_t step = std::max<std::size_t>(1, samples_in(frame, rate));
  std::vector<double> loud;
  for (std::size_t i = 0; i + step <= x.size(); i += step) {
    double sum = 0;
    for (std::size_t k = i; k < i + step; ++k) sum += x[k] * x[k];
    loud.push_back(std::sqrt(sum / static_cast<double>(step)));
  }
  if (loud.empty()) return {};
  const double usual = median(loud), loudest = *std::max_element(loud.begin(), loud.end());
  const auto before = static_cast<std::size_t>(std::lround(quiet_before / frame));
  const auto apart = static_cast<std::size_t>(std::lround(between_taps / frame));
  std::vector<std::size_t> out;
  std::size_t last = 0;
  for (std::size_t i = 0; i < loud.size(); ++i) {
    if (loud[i] < of_loudest * loudest || loud[i] < leap * usual) continue;
    double was = usual;
    for (std::size_t k = i > before ? i - before : 0; k + 1 < i; ++k) was = std::max(was, loud[k]);
    if (loud[i] < leap * was || (!out.empty() && i - last < apart)) continue;
    out.push_back(i * step);
    last = i;
  }
  if (out.empty()) {
    const auto ring = samples_in(longest_ring, rate);
    const auto at = static_cast<std::size_t>(std::max_element(loud.begin(), loud.end()) - loud.begin()) * step;
    out.push_back(x.size() < at + ring ? (x.size() > ring ? x.size() - ring : 0) : at);
  }
  return out;
}

struct Peak {
  double frequency = 0, over_noise = 0;
};

std::vector<double> power_of(const double* x, std::size_t n, std::size_t length) {
  const std::unique_ptr<double, void (*)(void*)> in(fftw_alloc_real(length), fftw_free);
  const std::unique_ptr<fftw_complex, void (*)(void*)> out(fftw_alloc_complex(length / 2 + 1), fftw_free);
  std::fill_n(in.get(), length, 0.0);
  for (std::size_t i = 0; i < n; ++i)
    in.get()[i] = x[i] * (0.5 - 0.5 * std::cos(2 * pi * (static_cast<double>(i) + 0.5) / static_cast<double>(n)));
  const fftw_plan plan = fftw_plan_dft_r2c_1d(static_cast<int>(length), in.get(), out.get(), FFTW_ESTIMATE);
  fftw_execute(plan);
  fftw_destroy_plan(plan);
  std::vector<double> power;
  for (std::size_t k = 0; k <= length / 2; ++k) {
    const auto& c = out.get()[k];
    power.push_back(c[0] * c[0] + c[1] * c[1]);
  }
  return power;
}

std::optional<Peak> lowest_clear_peak(const double* x, std::size_t n, double rate) {
  std::size_t length = 1;
  while (length < padded * n) length *= 2;
  const std::vector<double> power = power_of(x, n, length);
  const double bin = rate / static_cast<double>(length);
  const auto at = [&](double f) {
    return std::min(power.size() - 2, static_cast<std::size_t>(std::max(1.0, f / bin)));
  };
  const double noise = std::max(1e-300, median({power.begin() + static_cast<std::ptrdiff_t>(at(lowest_tone)),
                                                power.begin() + static_cast<std::ptrdiff_t>(at(noise_to)) + 1}));
  // Less than two waves in the window are no tone.
  const double lowest = std::max(lowest_tone, 2 * rate / static_cast<double>(n));
  double strongest = 0;
  for (std::size_t k = at(lowest); k <= at(highest_tone); ++k) strongest = std::max(strongest, power[k]);
  for (std::size_t k = at(lowest); k <= at(highest_tone); ++k) {
    if (power[k] < power[k - 1] || power[k] < power[k + 1]) continue;
    if (power[k] < clear_of_noise * noise || power[k] < of_strongest * strongest) continue;
    const double left = std::log(power[k - 1] + 1e-300), here = std::log(power[k]),
                 right = std::log(power[k + 1] + 1e-300);
    const double bend = left - 2 * here + right;
    const double shift = bend < 0 ? 0.5 * (left - right) / bend : 0;
    return Peak{(static_cast<double>(k) + shift) * bin, power[k] / noise};
  }
  return {};
}

}  // namespace

TapsHeard listen(const Recording& r) {
  TapsHeard out;
  const auto trouble = [&](Unheard t) {
    out.trouble = t;
    return out;
  };
  if (static_cast<double>(r.samples.size()) < shortest_ring * r.rate) return trouble(Unheard::too_short);
  const std::vector<double> x = without_mean(r.samples);
  double loudest = 0;
  for (const double v : x) loudest = std::max(loudest, std::abs(v));
  if (loudest < silence) return trouble(Unheard::silent);
  if (r.clipped_share > most_clipped) return trouble(Unheard::clipped);
  const std::vector<std::size_t> at = blows(x, r.rate);
  std::vector<double> clear;
  std::size_t cut_short = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const std::size_t begin = at[i] + samples_in(after_the_blow, r.rate);
    const std::size_t end =
        std::min({x.size(), i + 1 < at.size() ? at[i + 1] : x.size(), begin + samples_in(longest_ring, r.rate)});
    if (end < begin + samples_in(shortest_ring, r.rate)) {
      ++cut_short, ++out.passed_over;
      continue;
    }
    if (const auto peak = lowest_clear_peak(x.data() + begin, end - begin, r.rate)) {
      out.tones.push_back(peak->frequency);
      clear.push_back(10 * std::log10(peak->over_noise));
    } else {
      ++out.passed_over;
    }
  }
  if (out.tones.empty()) return trouble(cut_short == at.size() ? Unheard::too_short : Unheard::no_tone);
  out.taps = static_cast<int>(out.tones.size());
  std::vector<double> sorted = out.tones;
  std::sort(sorted.begin(), sorted.end());
  const std::size_t n = sorted.size();
  out.tone = n % 2 ? sorted[n / 2] : 0.5 * (sorted[n / 2 - 1] + sorted[n / 2]);
  out.clear_by = median(clear);
  if (n >= 3) {
    std::vector<double> off;
    for (const double f : sorted) off.push_back(std::abs(std::log(f / out.tone)));
    out.scatter = to_sigma * median(off);
  }
  return out;
}

}  // namespace evenpull
