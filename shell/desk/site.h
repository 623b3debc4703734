// Where the studio's pages stand, and what their browser offers.
#pragma once

#include <string>

namespace coatwright::studio {

struct Site {
  std::string address;        // "https://harbour.example/coats/"; empty in the native window
  bool shares = false;        // the device has a share sheet
  bool shares_files = false;  // which takes files
  bool keeps_pages = true;    // a page is printed in its own size, whatever paper was chosen
  bool photographs = false;   // it takes, keeps and shows photographs
  bool camera = false;        // of the device, besides its files
};

}  // namespace coatwright::studio
