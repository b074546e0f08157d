"""The contract, judged from outside: by tools, by generated clients and by a fuzzer."""
