#pragma once
// A quiz as a content package of the open standard 1EdTech (IMS) QTI 3.0: a test for each sheet, an
// item for each of its questions, the drawings, and a manifest.

#include <string>
#include <vector>

#include "render/render.hpp"

namespace footroom::render {

/// A file of a package.
struct PackageFile {
  std::string path;  ///< "items/A-1.xml"
  std::string bytes;
};

/// Numbers are judged by ranges, so that a client that overlooks a tolerance judges alike; points
/// are those of footroom grade with its usual credit. Feedback names the known mistakes, and tells
/// the right answer with its worked solution.
class QtiPackage {
 public:
  QtiPackage(const Templates& templates, const quiz::Header& header)
      : templates_(templates), header_(header) {}

  void add(const quiz::Sheet& sheet);

  /// All files, imsmanifest.xml first.
  std::vector<PackageFile> finish();

 private:
  const Templates& templates_;
  const quiz::Header& header_;
  std::vector<PackageFile> files_;
  std::string resources_;
};

}  // namespace footroom::render
