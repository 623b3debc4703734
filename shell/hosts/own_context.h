// Put before Dear ImGui's OpenGL renderer where it draws on a page. The renderer
// asks for all state that it is about to change and puts it back behind itself, for
// other code that draws into the same context. On a page nothing else does, and
// every such question waits until the browser's graphics process has caught up. So
// the answers are given here: the state that a context begins with (values from
// memory; OpenGL ES 3.0 has them in its state tables). Other questions go through.
#pragma once

#include <GLES3/gl3.h>

inline void own_context_state(GLenum name, GLint* value) {
  switch (name) {
    case GL_ACTIVE_TEXTURE:
      *value = GL_TEXTURE0;
      return;
    case GL_CURRENT_PROGRAM:
    case GL_TEXTURE_BINDING_2D:
    case GL_SAMPLER_BINDING:
    case GL_ARRAY_BUFFER_BINDING:
    case GL_VERTEX_ARRAY_BINDING:
      *value = 0;
      return;
    case GL_BLEND_SRC_RGB:
    case GL_BLEND_SRC_ALPHA:
      *value = GL_ONE;
      return;
    case GL_BLEND_DST_RGB:
    case GL_BLEND_DST_ALPHA:
      *value = GL_ZERO;
      return;
    case GL_BLEND_EQUATION_RGB:
    case GL_BLEND_EQUATION_ALPHA:
      *value = GL_FUNC_ADD;
      return;
    case GL_VIEWPORT:  // set before every frame
    case GL_SCISSOR_BOX:
      for (int i = 0; i < 4; ++i) value[i] = 0;
      return;
    default:
      glGetIntegerv(name, value);
  }
}

// Nothing that the renderer asks for is enabled between its frames.
inline GLboolean own_context_enabled(GLenum) { return GL_FALSE; }

#define glGetIntegerv own_context_state
#define glIsEnabled own_context_enabled
