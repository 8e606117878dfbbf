#include "app/text/checksum.hpp"

#include <glib.h>

#include <memory>

namespace evenpull {

std::string sha256(const std::string& bytes) {
  const std::unique_ptr<gchar, void (*)(gpointer)> digest(
      g_compute_checksum_for_data(G_CHECKSUM_SHA256, reinterpret_cast<const guchar*>(bytes.data()), bytes.size()),
      g_free);
  return digest.get();
}

}  // namespace evenpull
