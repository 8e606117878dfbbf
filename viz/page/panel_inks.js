// How cloth and lines are inked: the programs of the graphics card.
"use strict";

const MOST_BANDS = 32;

const CLOTH_VERTEX = `#version 300 es
in vec3 position; in float value; in float state;
uniform mat4 view; out float v; flat out float s; out vec3 p;
void main() { vec4 q = view * vec4(position, 1.0); gl_Position = q; v = value; s = state; p = q.xyz; }`;

// Band by band as on paper: flat colour, a thin dark line between bands, strokes where the cloth is puckered, crossed
// strokes where it is loose. The strokes keep to the screen, so they stay readable at any size.
const CLOTH_FRAGMENT = `#version 300 es
precision highp float;
in float v; flat in float s; in vec3 p; out vec4 ink;
uniform int count; uniform float bounds[32]; uniform vec3 colours[32];
uniform float lines; uniform float hatch; uniform float opacity; uniform float pixel;
float stroke(float at) { return abs(fract(at) - 0.5) * 2.0; }
void main() {
  int k = 0; float nearest = 1e9, steep = max(fwidth(v), 1e-6);
  for (int i = 1; i < 32; ++i) {
    if (i >= count) break;
    if (v >= bounds[i]) k = i;
    nearest = min(nearest, abs(v - bounds[i]));
  }
  vec3 c = colours[k];
  vec3 n = normalize(cross(dFdx(p), dFdy(p)));
  c *= 0.90 + 0.10 * abs(n.z);
  if (lines > 0.5 && nearest / steep < 0.5 * pixel) c *= 0.45;
  if (hatch > 0.5 && s < 0.5) c = vec3(0.93); // nothing pulls there, so there is no value to show
  if (hatch > 0.5 && s < 1.5) {
    vec2 at = gl_FragCoord.xy / (9.0 * pixel);
    float d = stroke(at.x + at.y);
    if (s < 0.5) d = min(d, stroke(at.x - at.y));
    if (d < 0.16) c = vec3(s < 0.5 ? 0.45 : 0.0); else if (s > 0.5 && d < 0.36) c = mix(c, vec3(1.0), 0.75);
  }
  ink = vec4(c, opacity);
}`;

// A line as a strip of `width` pixels: WebGL's own lines are a pixel wide whatever one asks for.
const LINE_VERTEX = `#version 300 es
in vec3 from; in vec3 to; in vec2 corner; in float width; in vec3 colour;
uniform mat4 view; uniform vec2 screen; uniform float nearer; out vec3 c;
void main() {
  vec4 a = view * vec4(from, 1.0), b = view * vec4(to, 1.0);
  vec2 d = (b.xy - a.xy) * screen; float l = max(length(d), 1e-6);
  vec2 along = d / l, across = vec2(-along.y, along.x);
  vec4 q = mix(a, b, corner.x);
  q.xy += (across * corner.y + along * (corner.x * 2.0 - 1.0)) * width / screen;
  q.z -= nearer; gl_Position = q; c = colour;
}`;
const LINE_FRAGMENT = `#version 300 es
precision highp float; in vec3 c; out vec4 ink; void main() { ink = vec4(c, 1.0); }`;

function makeProgram(gl, vertex, fragment) {
  const program = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(shader));
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(program));
  const places = {};
  return { program, at: (name) => (name in places ? places[name] : (places[name] = gl.getUniformLocation(program, name))) };
}
