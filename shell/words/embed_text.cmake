# cmake -DOUT=x.cpp -DHEADER=shell/x.h -DNAMESPACE=n -DNAMES=a,b -DFILES=a.txt,b.json -P embed_text.cmake
# Files as C++ functions that return their text; the header declares them.
string(REPLACE "," ";" NAMES "${NAMES}")
string(REPLACE "," ";" FILES "${FILES}")
set(source "#include \"${HEADER}\"\n\nnamespace ${NAMESPACE} {\n")
foreach(name file IN ZIP_LISTS NAMES FILES)
  file(READ ${file} text)
  string(FIND "${text}" ")embedded\"" closing)
  if(NOT closing EQUAL -1)
    message(FATAL_ERROR "${file} holds the end mark of the literal that it is put in")
  endif()
  string(APPEND source "
std::string_view ${name}() {
  static constexpr std::string_view kText = R\"embedded(${text})embedded\";
  return kText;
}
")
endforeach()
file(WRITE ${OUT} "${source}\n}  // namespace ${NAMESPACE}\n")
