using System.Diagnostics;

namespace ScheduleOpt.TestKit;

/// <summary>Runs a short Python script: other implementations to hold ours against.</summary>
public static class PythonScript
{
    private static readonly string[] Interpreters = ["/usr/bin/python3", "python3"];

    /// <summary>The first interpreter that can import the modules; null where there is none.</summary>
    public static string? InterpreterWith(string modules) =>
        Array.Find(Interpreters, interpreter => TryRun(interpreter, $"import {modules}", "", out _));

    /// <summary>What the script writes when it is given the input.</summary>
    /// <exception cref="InvalidOperationException">The script failed; its own words are in the message.</exception>
    public static string Run(string interpreter, string script, string input) =>
        TryRun(interpreter, script, input, out var output) ? output : throw new InvalidOperationException(output);

    private static bool TryRun(string interpreter, string script, string input, out string output)
    {
        var start = new ProcessStartInfo(interpreter) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add(script);
        try
        {
            using var process = Process.Start(start)!;
            var (written, complaints) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            process.StandardInput.Write(input);
            process.StandardInput.Close();
            process.WaitForExit();
            output = process.ExitCode == 0 ? written.Result : complaints.Result;
            return process.ExitCode == 0;
        }
        catch (System.ComponentModel.Win32Exception missing)
        {
            output = missing.Message;
            return false;
        }
    }
}
