from review.cli import main

main()
