// An empty program: what starting any program costs (see cold_start.sh).
int main() {}
