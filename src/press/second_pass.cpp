#include "press/second_pass.hpp"

#include <memory>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

namespace norma::press {

std::string second_pass(const std::string& pdf, const std::string& title,
                        const std::string& language, const std::vector<std::string>& alts) {
  QPDF document;
  document.processMemoryFile("cards", pdf.data(), pdf.size());
  QPDFObjectHandle root = document.getRoot();
  root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(language));
  root.replaceKey("/ViewerPreferences",
                  QPDFObjectHandle::parse("<< /DisplayDocTitle true /PrintScaling /None >>"));
  root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
  root.replaceKey("/PageMode", QPDFObjectHandle::newName("/UseNone"));
  QPDFObjectHandle info = document.getTrailer().getKey("/Info");
  if (info.isDictionary()) info.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(title));
  std::size_t figure = 0;
  for (QPDFObjectHandle& o : document.getAllObjects()) {
    if (!o.isDictionary() || !o.hasKey("/S") || !o.getKey("/S").isName()) continue;
    if (o.getKey("/S").getName() != "/Figure" || figure >= alts.size()) continue;
    o.replaceKey("/Alt", QPDFObjectHandle::newUnicodeString(alts[figure++]));
  }
  for (QPDFPageObjectHelper& page : QPDFPageDocumentHelper(document).getAllPages())
    page.getObjectHandle().replaceKey("/Tabs", QPDFObjectHandle::newName("/S"));
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setDeterministicID(true);
  writer.setObjectStreamMode(qpdf_o_generate);
  writer.setMinimumPDFVersion("1.7");
  writer.write();
  const std::unique_ptr<Buffer> out(writer.getBuffer());
  return {reinterpret_cast<const char*>(out->getBuffer()), out->getSize()};
}

} // namespace norma::press
