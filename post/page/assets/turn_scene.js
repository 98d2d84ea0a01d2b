// SPDX-License-Identifier: GPL-3.0-or-later
// The solid, its ink and the light on them, drawn by the library three.js into
// one canvas. Draws when told to and at no other time.
(function (neckhew) {
	'use strict';

	const { THREE } = window;

	// The light is soft and comes over the viewer's left shoulder, so shape reads
	// from everywhere, and what faces it has the very colours of the pass map.
	const SKY = 0.66;
	const BENCH = [0.63, 0.57, 0.5]; // what comes back from below: wood does not go grey
	const LAMP = 0.4;
	const LAMP_AT = { right: -0.45, up: 0.55, out: 1 };

	const INK_INSIDE = 0.62; // strength of the finished neck's lines
	const SET_BACK = 1200; // smallest steps of depth: about a tenth of a mm here

	// A context of WebGL with what is needed, or null. It is asked for here and
	// not by the library, which complains aloud where there is none.
	function context(canvas) {
		const gl = canvas.getContext('webgl', {
			alpha: false, antialias: true, depth: true, stencil: false,
			preserveDrawingBuffer: true // the picture stays for print and copy
		});

		return gl && !gl.isContextLost() && gl.getExtension('OES_element_index_uint') ? gl : null;
	}

	function attributes(geometry, lists) {
		for (const name of Object.keys(lists))
			geometry.setAttribute(name, new THREE.BufferAttribute(lists[name], 3));
		return geometry;
	}

	function lineGeometry(ends) {
		return attributes(new THREE.BufferGeometry(), { position: Float32Array.from(ends) });
	}

	function add(scene, object) {
		object.frustumCulled = false; // all of it is in sight nearly always
		object.matrixAutoUpdate = false;
		scene.add(object);
		return object;
	}

	function lights(scene) {
		const sky = new THREE.HemisphereLight(0xffffff, 0xffffff, SKY);
		const lamp = new THREE.DirectionalLight(0xffffff, LAMP);

		sky.groundColor.fromArray(BENCH.map((v) => v / SKY));
		sky.position.set(0, 0, 1);
		scene.add(sky);
		scene.add(lamp);
		return lamp;
	}

	// Top, walls and ink share two materials. Faces are set back a hair so that
	// ink lies on them.
	function objects(scene, solid, model) {
		const colours = model.drawing.colours;
		const wood = new THREE.MeshLambertMaterial({
			vertexColors: THREE.VertexColors, polygonOffset: true,
			polygonOffsetFactor: 1, polygonOffsetUnits: SET_BACK
		});
		const pen = new THREE.LineBasicMaterial({ color: colours.soft_ink });
		const inside = new THREE.LineBasicMaterial({
			color: colours.ink, transparent: true, opacity: INK_INSIDE, depthTest: false
		});
		const top = attributes(new THREE.BufferGeometry(),
			{ position: solid.position, normal: solid.normal, color: solid.colour });

		top.setIndex(new THREE.BufferAttribute(solid.index, 1));
		return {
			top: add(scene, new THREE.Mesh(top, wood)),
			rest: add(scene, new THREE.Mesh(new THREE.BufferGeometry(), wood)),
			ink: add(scene, new THREE.LineSegments(new THREE.BufferGeometry(), pen)),
			neck: add(scene, new THREE.LineSegments(
				lineGeometry(neckhew.turnNeck.lines(model)), inside))
		};
	}

	// The arrays of the solid have new contents.
	function refresh(parts, solid) {
		const top = parts.top.geometry, rest = solid.rest;

		for (const name of ['position', 'normal', 'color'])
			top.attributes[name].needsUpdate = true;
		top.index.needsUpdate = true;
		top.setDrawRange(0, solid.used);
		parts.rest.geometry.dispose();
		parts.rest.geometry = attributes(new THREE.BufferGeometry(), {
			position: Float32Array.from(rest.position),
			normal: Float32Array.from(rest.normal),
			color: Float32Array.from(rest.colour)
		});
		parts.ink.geometry.dispose();
		parts.ink.geometry = lineGeometry(solid.line);
	}

	function aim(camera, lamp, place, aspect, reachMm) {
		const { out, right, up } = neckhew.turnCamera.axes(place);
		const v = (a) => new THREE.Vector3(a[0], a[1], a[2]);
		const at = v(place.target).addScaledVector(v(out), place.off);

		camera.matrix.makeBasis(v(right), v(up), v(out)).setPosition(at);
		camera.matrixWorldNeedsUpdate = true;
		camera.aspect = aspect;
		camera.near = Math.max(place.off - reachMm, 5);
		camera.far = place.off + reachMm;
		camera.updateProjectionMatrix();
		lamp.position.set(0, 0, 0).addScaledVector(v(right), LAMP_AT.right)
			.addScaledVector(v(up), LAMP_AT.up).addScaledVector(v(out), LAMP_AT.out);
	}

	// reachMm: no part of the stock is farther than this from any other.
	// -> { size(w, h, ratio), refresh(), neck(on), draw(place), free() }
	function make(canvas, gl, model, solid, reachMm) {
		const renderer = new THREE.WebGLRenderer({ canvas, context: gl });
		const scene = new THREE.Scene();
		const camera = new THREE.PerspectiveCamera(neckhew.turnCamera.OPENING_DEG);
		const lamp = lights(scene);
		const parts = objects(scene, solid, model);
		let aspect = 1;

		renderer.setClearColor(new THREE.Color(model.drawing.colours.paper), 1);
		camera.matrixAutoUpdate = false;
		return {
			size: function (width, height, ratio) {
				aspect = width / height;
				renderer.setPixelRatio(ratio);
				renderer.setSize(width, height, false);
			},
			refresh: () => refresh(parts, solid),
			neck: (on) => { parts.neck.visible = on; },
			draw: function (place) {
				aim(camera, lamp, place, aspect, reachMm);
				renderer.render(scene, camera);
			},
			free: function () {
				for (const object of Object.values(parts)) {
					object.geometry.dispose();
					object.material.dispose();
				}
				renderer.dispose();
				if (!gl.isContextLost())
					renderer.forceContextLoss();
			}
		};
	}

	neckhew.turnScene = { context, make };
})(window.neckhew = window.neckhew || {});
