#!/bin/sh
# A script with a line nobody can read at once.
# wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide wide 
