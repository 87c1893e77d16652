using System.Diagnostics;

namespace ScheduleOpt.Reference.Tests;

/// <summary>Where the reference in Python lies, and the interpreter that can run it.</summary>
internal static class PythonReference
{
    private static readonly Lazy<(string? Interpreter, string Reason)> Found = new(Find);

    /// <summary>The folder tests/reference of this repository.</summary>
    public static string Folder { get; } = FindFolder();

    /// <summary>The interpreter; skips the test where none has scipy.</summary>
    public static string InterpreterOrSkip()
    {
        Assert.SkipWhen(Found.Value.Interpreter is null, $"The reference needs python3 with scipy 1.10 or later: {Found.Value.Reason}");
        return Found.Value.Interpreter!;
    }

    /// <summary>How to start a script of the reference, all three streams redirected.</summary>
    public static ProcessStartInfo Start(string interpreter, params string[] arguments)
    {
        var start = new ProcessStartInfo(interpreter, arguments)
        {
            WorkingDirectory = Folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["PYTHONDONTWRITEBYTECODE"] = "1";
        start.Environment["OMP_NUM_THREADS"] = "1";
        return start;
    }

    /// <summary>Runs a script to its end.</summary>
    public static (int ExitCode, string Output, string Error) Run(string interpreter, params string[] arguments)
    {
        using var process = Process.Start(Start(interpreter, arguments)) ?? throw new InvalidOperationException($"{interpreter} did not start.");
        process.StandardInput.Close();
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output, error.GetAwaiter().GetResult());
    }

    private static (string? Interpreter, string Reason) Find()
    {
        var reason = "no interpreter found";
        foreach (var interpreter in new[] { "/usr/bin/python3", "python3", "python" })
        {
            try
            {
                var (exitCode, _, error) = Run(interpreter, "-c", "import scipy.optimize, zoneinfo; zoneinfo.ZoneInfo('Australia/Lord_Howe')");
                if (exitCode == 0)
                {
                    return (interpreter, "");
                }

                reason = error.Trim().Split('\n')[^1];
            }
            catch (System.ComponentModel.Win32Exception problem)
            {
                reason = problem.Message;
            }
        }

        return (null, reason);
    }

    private static string FindFolder()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "ScheduleOpt.sln")))
            {
                return Path.Combine(at.FullName, "tests", "reference");
            }
        }

        throw new DirectoryNotFoundException("The tests run outside of the repository: no ScheduleOpt.sln above them.");
    }
}
