using RepairShop.Browser.Tests;
using RepairShop.Testing;
using Xunit;
using Xunit.Sdk;
using Xunit.v3;

[assembly: AssemblyFixture(typeof(PostgresServer))]
[assembly: AssemblyFixture(typeof(Chromium))]

// One browser story at a time: two cores carry one browser, one shop and one database well, and no more.
[assembly: Parallelization(Mode = ParallelMode.None)]
