in vec3 vPlace;

void main() {
#ifdef CUTS
    if (cutAway(vPlace)) discard;
#endif
}
