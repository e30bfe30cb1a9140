"""What was read and worked out as plain tables, a file each: bins, entries, problems, tasks, estimates."""
