#include "page/page_file.hpp"

#include <openssl/evp.h>
#include <zlib.h>

#include <array>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace footroom::page {
namespace {

std::string base64(const unsigned char* bytes, std::size_t size) {
  std::string text(4 * ((size + 2) / 3) + 1, '\0');  // EVP_EncodeBlock ends with a zero
  const int length =
      EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()), bytes, static_cast<int>(size));
  text.resize(static_cast<std::size_t>(length));
  return text;
}

std::string packed(std::string_view bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::vector<unsigned char> out(size);
  if (compress2(out.data(), &size, reinterpret_cast<const unsigned char*>(bytes.data()),
                static_cast<uLong>(bytes.size()), Z_BEST_COMPRESSION) != Z_OK)
    throw std::runtime_error("zlib: out of memory");
  return base64(out.data(), size);
}

/// As a policy names the script or style with this text.
std::string hash_source(std::string_view text) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 failed");
  return "'sha256-" + base64(digest.data(), size) + "'";
}

std::string element(const std::string& name, const std::string& text) {
  const auto holds = [&](const std::string& part) { return text.find(part) != std::string::npos; };
  // Behind "<!--" a "<script" would hide the end of the element (HTML, 13.2.5.20).
  if (holds("</" + name) || (holds("<!--") && holds("<" + name)))
    throw std::runtime_error("a " + name + " holds \"</" + name + "\", or \"<!--\" and \"<" + name +
                             "\"");
  return "<" + name + ">" + text + "</" + name + ">";
}

std::string data_element(const std::string& id, std::string_view bytes) {
  return "<script type=\"text/plain\" id=\"" + id + "\">" + packed(bytes) + "</script>\n";
}

void put(std::string& html, const std::string& place, const std::string& text) {
  const std::size_t at = html.find(place);
  if (at == std::string::npos || html.find(place, at + 1) != std::string::npos)
    throw std::runtime_error("expected " + place + " once");
  html.replace(at, place.size(), text);
}

}  // namespace

std::string page_file(const PageParts& parts) {
  const std::string policy =
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src " +
      hash_source(parts.core_js) + " " + hash_source(parts.script) +
      " 'wasm-unsafe-eval'; style-src " + hash_source(parts.css) +
      "; img-src data:; base-uri 'none'; form-action 'none'\">";
  std::string html = parts.html;
  put(html, "<!--policy-->", policy);
  put(html, "<!--style-->", element("style", parts.css));
  put(html, "<!--script-->", element("script", parts.script));
  put(html, "<!--core-->",
      "<script type=\"text/plain\" id=\"footroom-notices\">\n" + parts.notices + "</script>\n" +
          data_element("footroom-core", parts.core_wasm) +
          data_element("footroom-data", parts.data) + element("script", parts.core_js));
  return html;
}

}  // namespace footroom::page
