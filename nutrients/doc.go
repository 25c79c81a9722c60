// Package nutrients holds what people require: nutrients and units, people and
// life stages, published requirements and energy equations. It follows the
// Dietary Reference Intakes of the US National Academies; where it departs
// from them (niacin, stored vitamins, infants) the doc comment concerned says
// how and why. It knows nothing of foods, linear programs or terminals.
package nutrients
