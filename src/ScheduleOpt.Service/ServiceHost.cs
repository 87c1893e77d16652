using ScheduleOpt.Service.Bills;
using ScheduleOpt.Service.Comparisons;
using ScheduleOpt.Service.Health;
using ScheduleOpt.Service.Hosting;
using ScheduleOpt.Service.Documentation;
using ScheduleOpt.Service.Jobs;
using ScheduleOpt.Service.Problems;
using ScheduleOpt.Service.RatePlans;
using ScheduleOpt.Service.Schedules;

namespace ScheduleOpt.Service;

/// <summary>The HTTP service, for its own program and for any other that starts it in-process.</summary>
public static class ServiceHost
{
    /// <summary>Builds the service without starting it.</summary>
    /// <param name="args">Settings as <c>--name value</c>, such as <c>--urls http://127.0.0.1:5080</c>.</param>
    /// <exception cref="ServiceRefusedException">The settings would open the service to others without a key.</exception>
    public static WebApplication Build(string[] args)
    {
        // Settings come from the arguments and the environment, never from a file that happens to lie where the service is started.
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
        builder.AddListening();
        builder.AddHostNames();
        builder.AddRequestLog();
        builder.AddRequestRate();
        builder.AddReadiness();
        builder.AddApiDocument();
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton<SolveGate>();
        builder.Services.AddSingleton<Answering>();
        builder.Services.AddSingleton<JobStore>();
        builder.Services.AddHostedService<WarmUp>();
        builder.Services.Configure<HostOptions>(options => options.ShutdownTimeout = TimeSpan.FromSeconds(10));

        var app = builder.Build();
        app.UseRequestLog();
        app.UseSecurityHeaders();
        app.UseProblems();
        app.UseHostNames();
        app.UseApiKey();
        app.UseOrigins();
        app.UseRateLimiter();

        app.MapHealth();
        app.MapApiDocument();
        var v1 = app.MapGroup("/v1").AddEndpointFilter<ChoosesMedia>();
        v1.MapSchedules();
        v1.MapComparisons();
        v1.MapJobs();
        v1.MapBills();
        v1.MapRatePlans();
        return app;
    }

    /// <summary>Runs the service until it is asked to stop.</summary>
    /// <returns>0 after an orderly stop; 1 where the settings are refused, with the reason on the error stream.</returns>
    public static async Task<int> RunAsync(string[] args)
    {
        try
        {
            await using var app = Build(args);
            await app.RunAsync();
            return 0;
        }
        catch (ServiceRefusedException refused)
        {
            await Console.Error.WriteLineAsync(refused.Message);
            return 1;
        }
    }
}
